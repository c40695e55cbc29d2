"""What has come in and waits for the next turn, in the order in which it is taken."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from kiosk.core.contacts import Sample
from kiosk.core.inputs import Input, Touched


@dataclass
class Command:
    """A command from the local socket; `answer` is called once with what came of it."""

    request: dict[str, Any]
    answer: Callable[[dict[str, Any]], None]


@dataclass(frozen=True)
class Lot:
    """All that one turn takes: samples in order, touches, then results and commands."""

    samples: tuple[Sample, ...] = ()
    touches: tuple[Touched, ...] = ()
    results: tuple[Input | Command, ...] = ()


@dataclass
class Inbox:
    """Filled by any thread, emptied by the loop alone."""

    _came: threading.Condition = field(default_factory=threading.Condition)
    _samples: list[Sample] = field(default_factory=list)
    _touches: list[Touched] = field(default_factory=list)
    _results: list[Input | Command] = field(default_factory=list)

    def put(self, given: Sample | Input | Command) -> None:
        """Add one thing and wake the loop."""
        with self._came:
            match given:
                case Sample():
                    self._samples.append(given)
                case Touched():
                    self._touches.append(given)
                case _:
                    self._results.append(given)
            self._came.notify_all()

    def wake(self) -> None:
        """Wake the loop with nothing in it."""
        with self._came:
            self._came.notify_all()

    def wait(self, seconds: float) -> None:
        """Wait until something is in, or the time is up."""
        with self._came:
            if not self._is_full():
                self._came.wait(max(0.0, seconds))

    def take(self) -> Lot:
        """All that is in, leaving it empty."""
        with self._came:
            lot = self._look()
            self._samples, self._touches, self._results = [], [], []
            return lot

    def look(self) -> Lot:
        """All that is in, leaving it there."""
        with self._came:
            return self._look()

    def _look(self) -> Lot:
        return Lot(tuple(self._samples), tuple(self._touches), tuple(self._results))

    def _is_full(self) -> bool:
        return bool(self._samples or self._touches or self._results)
