"""The raw levels as they come in, and whether they have settled."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock

from hardware.reader import reader_for
from kiosk.core.contacts import Sample
from kiosk.core.model import ContactTimes, Wiring
from kiosk.core.words import Words

Levels = tuple[tuple[int, bool], ...]


class Watcher:
    """Reads the contacts of a wiring at a port between entry and exit."""

    def __init__(self, wiring: Wiring, port: str, now_us: Callable[[], int], words: Words) -> None:
        self._times, self._words, self._now_us = wiring.times, words, now_us
        self._lock = Lock()
        self._levels: Levels = ()
        self._lost, self._count, self._since_us, self._last_us = "stale", 0, 0, now_us()
        self._moved: dict[int, int] = {}
        self._reader = reader_for(wiring, port, self._take, now_us)

    def __enter__(self) -> Watcher:
        self._reader.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._reader.stop()

    def _take(self, sample: Sample) -> None:
        with self._lock:
            self._lost = sample.lost
            if sample.lost:
                self._count = 0
                return
            self._note_moves(sample)
            same = self._count and sample.levels == self._levels
            self._count = self._count + 1 if same else 1
            self._since_us = self._since_us if same else sample.us
            self._levels, self._last_us = sample.levels, sample.us

    def _note_moves(self, sample: Sample) -> None:
        before = dict(self._levels)
        for number, level in sample.levels:
            if before.get(number, level) is not level:
                self._moved[number] = sample.us

    def settled(self) -> dict[int, bool] | None:
        """The levels, if they have stood still long enough to be believed."""
        with self._lock:
            return dict(self._levels) if self._is_settled(self._times) else None

    def _is_settled(self, times: ContactTimes) -> bool:
        fresh = self._now_us() - self._last_us < times.gap.us
        long = self._last_us - self._since_us >= times.debounce.us
        return bool(fresh and long and self._count >= times.samples)

    def moved_us(self, number: int) -> int | None:
        """When a contact's level last changed; None if it never did."""
        with self._lock:
            return self._moved.get(number)

    def shown(self) -> str:
        """The raw levels in one line, or why there are none."""
        with self._lock:
            if self._lost:
                return self._words.say(f"contacts.{self._lost}", input="")
            return "   ".join(f"{n} {'closed' if up else 'open'}" for n, up in self._levels)
