"""How long a start takes: to the first frame, and until it is ready with the reading shown.

A first frame is seen from outside, as a display that is no longer black: the same way for the
kiosk and for the bare app.
"""

from __future__ import annotations

import json
import os
import subprocess
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from PIL import ImageGrab

from demo.bench import Bench
from demo.kiosk import command
from kiosk.clock import Clock
from kiosk.runtime.settings import TREE
from tests.end_to_end.robot import Pointer

LOOK_S, PATIENCE_S = 0.003, 60.0


@dataclass
class Starts:
    """Starts on one display, which a pointer keeps open in between."""

    display: str
    folder: Path
    record: Path

    def __post_init__(self) -> None:
        self._pointer, self._clock = Pointer(self.display), Clock()
        self._pointer.do("mousemove", 1, 1)

    def bare_s(self, words: Sequence[str]) -> float:
        """Seconds to the bare app's first frame."""
        process, began = self._begin(words)
        try:
            return self._lit() - began
        finally:
            self._end(process)

    def kiosk_s(self, bench: Bench) -> tuple[float, float]:
        """Seconds to the kiosk's first frame, and to a first view with the isolator's reading."""
        shown = self.folder / "starts.jsonl"
        shown.unlink(missing_ok=True)
        words = ["run", "--record", str(self.record), "--shown", str(shown), "--port", bench.port]
        process, began = self._begin(command(*words))
        try:
            return self._lit() - began, self._read(shown) - began
        finally:
            self._end(process)

    def end(self) -> None:
        """Let the display go."""
        self._pointer.end()

    def _begin(self, words: Sequence[str]) -> tuple[subprocess.Popen[bytes], float]:
        silent = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        began = self._clock.us() / 1e6
        environment = {**os.environ, "DISPLAY": self.display}
        return subprocess.Popen(words, cwd=TREE, env=environment, **silent), began

    def _end(self, process: subprocess.Popen[bytes]) -> None:
        process.terminate()
        process.wait(15)
        self._until(black=True)

    def _lit(self) -> float:
        self._until(black=False)
        return self._clock.us() / 1e6

    def _until(self, black: bool) -> None:
        until = time.monotonic() + PATIENCE_S
        while (ImageGrab.grab(xdisplay=self.display).getbbox() is None) is not black:
            if time.monotonic() > until:
                raise TimeoutError(f"the display is {'not ' * black}black after {PATIENCE_S:g} s")
            time.sleep(LOOK_S)

    def _read(self, shown: Path) -> float:
        """When the isolator's reading was first shown, in seconds since boot."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            lines = shown.read_text("utf-8").split("\n")[:-1] if shown.exists() else []
            for line in map(json.loads, lines):
                if line["isolator"] == "Isolator off":
                    return float(line["us"]) / 1e6
            time.sleep(0.02)
        raise TimeoutError(f"no reading was shown within {PATIENCE_S:g} s")
