"""Follows a reader as the runtime does: its samples through `evaluate`, waited for by deadline."""

from __future__ import annotations

import time
from queue import Empty, Queue

from hardware.reader import reader_for
from kiosk.core.contacts import Change, Sample, at_start, evaluate, next_deadline, passed
from kiosk.core.model import ContactPair, Reading, Wiring

PATIENCE_S = 10.0
AGAIN_US = 50_000  # how often a condition that no sample brings about is looked at
MODBUS = Wiring("modbus", inputs=(("isolator", ContactPair(0, 1)),))
LINES = Wiring("lines", inputs=(("isolator", ContactPair(0, 1)),))
DRILL = Wiring("modbus", inputs=(*MODBUS.inputs, ("starter", ContactPair(make=2))))


class NotSeen(AssertionError):
    """What was waited for did not come in time."""


def now_us() -> int:
    """Microseconds that only grow."""
    return time.monotonic_ns() // 1000


class Following:
    """A reader on `port`, started on entry and stopped on exit, with all its changes kept."""

    def __init__(self, wiring: Wiring, port: str) -> None:
        self.wiring = wiring
        self.came: Queue[Sample] = Queue()
        self.samples: list[Sample] = []
        self.changes: list[Change] = []
        self.contacts = at_start(wiring, now_us())
        self.reader = reader_for(wiring, port, self.came.put, now_us)

    def __enter__(self) -> Following:
        self.reader.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.reader.stop()

    def until_told(self, reading: Reading, name: str = "isolator") -> Change:
        """The next change of `name` to `reading`, or what stands if it is so already."""
        return self.until(
            lambda: (
                next(
                    (c for c in reversed(self.changes) if c.input == name),
                    None,
                )
                if self.contacts.reading(name) is reading
                else None
            )
        )

    def until_sample(self, count: int = 1) -> None:
        """Until `count` further samples have come."""
        goal = len(self.samples) + count
        self.until(lambda: len(self.samples) >= goal)

    def until(self, seen):
        """Take samples in until `seen` gives something; fails after ten seconds."""
        until = now_us() + int(PATIENCE_S * 1e6)
        while not (found := seen()):
            if now_us() > until:
                raise NotSeen(f"after {PATIENCE_S} s: {self.changes[-5:]} {self.samples[-3:]}")
            self._turn()
        return found

    def _turn(self) -> None:
        again = now_us() + AGAIN_US
        due = min(next_deadline(self.contacts, self.wiring) or again, again)
        try:
            sample = self.came.get(timeout=max(0.001, (due - now_us()) / 1e6))
        except Empty:
            self.contacts, new = passed(self.contacts, self.wiring, now_us())
        else:
            self.samples.append(sample)
            self.contacts, new = evaluate(self.contacts, self.wiring, sample)
        self.changes += new
