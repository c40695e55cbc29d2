"""Displays that nobody sees, for tests and the tour: one Xvfb for each size asked for."""

from __future__ import annotations

import os
import select
import shutil
import subprocess
from types import TracebackType

PATIENCE_S = 20.0
MANNER = ("-nolisten", "tcp", "-noreset")
"""It stays as it is when its last window goes: a hand that comes just then is let in."""


class NoDisplay(Exception):
    """No display can be started here; the text says why."""


class Displays:
    """Displays by size; all end with the `with` block."""

    def __init__(self) -> None:
        self._names: dict[tuple[int, int], str] = {}
        self._running: list[subprocess.Popen[bytes]] = []

    def __enter__(self) -> Displays:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        for server in self._running:
            server.terminate()
        for server in self._running:
            server.wait(PATIENCE_S)

    def of(self, width: int, height: int) -> str:
        """The name of the display of this size, as `DISPLAY` wants it. Raises NoDisplay."""
        if (width, height) not in self._names:
            self._names[width, height] = self._start(width, height)
        return self._names[width, height]

    def _start(self, width: int, height: int) -> str:
        if shutil.which("Xvfb") is None:
            raise NoDisplay("Xvfb is not installed: sh tests/run.sh installs it")
        listen, tell = os.pipe()
        screen = f"{width}x{height}x24"
        command = ["Xvfb", "-displayfd", str(tell), "-screen", "0", screen, *MANNER]
        with os.fdopen(listen, "rb", buffering=0) as answers:
            self._running.append(_launch(command, tell))
            os.close(tell)
            return _answer(answers.fileno(), screen)


def _launch(command: list[str], tell: int) -> subprocess.Popen[bytes]:
    silent = subprocess.DEVNULL
    return subprocess.Popen(command, pass_fds=(tell,), stdin=silent, stdout=silent, stderr=silent)


def _answer(handle: int, screen: str) -> str:
    """The display's name, which Xvfb writes when it can be used: digits, then the line's end.

    It writes them one after the other and ends itself if nobody reads the second.
    """
    number = b""
    while not number.endswith(b"\n"):
        ready, _, _ = select.select([handle], [], [], PATIENCE_S)
        came = os.read(handle, 16) if ready else b""
        if not came:
            raise NoDisplay(f"Xvfb did not start a screen of {screen}")
        number += came
    return f":{number.decode().strip()}"
