"""The wires between the contacts and the unit, and what can be wrong with them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from threading import Lock


class Wires:
    """Carries contact levels to a unit's inputs; faults are ordered from any thread."""

    def __init__(self, levels: Callable[[], Mapping[int, bool]]) -> None:
        self._levels = levels
        self._lock = Lock()
        self._fixed: dict[int, bool] = {}
        self._swapped: tuple[int, int] | None = None
        self._bounces = 0

    def take_off(self, *numbers: int) -> None:
        """The wires of these inputs come off: they read open."""
        self._fix(dict.fromkeys(numbers, False))

    def short(self, *numbers: int) -> None:
        """These inputs are shorted: they read closed."""
        self._fix(dict.fromkeys(numbers, True))

    def stick(self, *numbers: int) -> None:
        """These contacts stay as they are now."""
        now = self._levels()
        self._fix({number: now.get(number, False) for number in numbers})

    def put_back(self, *numbers: int) -> None:
        """These inputs are sound again."""
        with self._lock:
            for number in numbers:
                self._fixed.pop(number, None)

    def swap(self, one: int = 0, other: int = 1) -> None:
        """The wires of two inputs are exchanged; a second time puts them right."""
        with self._lock:
            self._swapped = None if self._swapped else (one, other)

    def bounce(self, looks: int = 6) -> None:
        """Every contact opens and closes in turn for the next `looks` looks."""
        with self._lock:
            self._bounces = looks

    def look(self) -> dict[int, bool]:
        """The levels that arrive at the unit, at this moment, and one bounce fewer to come."""
        levels = self.peek()
        with self._lock:
            self._bounces = max(0, self._bounces - 1)
        return levels

    def peek(self) -> dict[int, bool]:
        """The levels at the unit, at this moment, without disturbing them."""
        levels = dict(self._levels())
        with self._lock:
            if self._bounces % 2:
                levels = {number: not level for number, level in levels.items()}
            if self._swapped:
                one, other = self._swapped
                levels[one], levels[other] = levels.get(other, False), levels.get(one, False)
            return {**levels, **self._fixed}

    def _fix(self, levels: dict[int, bool]) -> None:
        with self._lock:
            self._fixed.update(levels)
