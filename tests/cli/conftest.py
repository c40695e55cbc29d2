"""A record, a stick, and commands run as a technician runs them."""

from __future__ import annotations

import json
import socket
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from kiosk.cli import group
from kiosk.store import Record
from tests.recording import Playing, play_lesson

Run = Callable[..., Result]


@pytest.fixture
def run() -> Run:
    """Run a command: `run("download", "--week", ...)`."""
    return lambda *words: CliRunner().invoke(group, [str(word) for word in words])


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    """An empty folder."""
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A record with a short lesson, closed."""
    path = tmp_path / "record.sqlite"
    opened = Record.open(path)
    play_lesson(Playing(opened))
    opened.close()
    return path


class Listening:
    """A far end of the local socket that keeps what it was asked and gives one answer."""

    def __init__(self, path: Path, answer: bytes) -> None:
        self.asked: list[dict[str, Any]] = []
        self._answer = answer
        self._socket = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
        self._socket.bind(str(path))
        self._socket.listen(1)
        self._thread = threading.Thread(target=self._serve)
        self._thread.start()

    def _serve(self) -> None:
        while True:
            try:
                caller, _ = self._socket.accept()
            except OSError:
                return
            with caller, caller.makefile("rwb") as line:
                self.asked.append(json.loads(line.readline()))
                line.write(self._answer)

    def __enter__(self) -> Listening:
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def stop(self) -> None:
        """Stop listening. May be called twice."""
        if not self._thread.is_alive():
            return
        self._socket.shutdown(socket.SHUT_RDWR)
        self._socket.close()
        self._thread.join()


@pytest.fixture
def listening(tmp_path: Path) -> Iterator[Callable[[bytes], Listening]]:
    """Listens beside the record with an answer."""
    made: list[Listening] = []

    def listen(answer: bytes) -> Listening:
        made.append(Listening(tmp_path / "record.sqlite.sock", answer))
        return made[-1]

    yield listen
    for one in made:
        one.stop()
