"""The electrics of a pillar drill: isolator, starter with no-volt release, spindle, room stop.

Contact numbers, as on the shipped machine: 0 the isolator's make contact, 1 its break contact,
2 the starter's make contact; 3 is a spindle contact, closed while the spindle turns; 4 is closed
while the guard is down, 5 while the extraction runs.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from threading import RLock

ISOLATOR_MAKE, ISOLATOR_BREAK, STARTER, SPINDLE, GUARD, EXTRACTION = range(6)


@dataclass(frozen=True)
class DrillState:
    """The drill as an eye would see it now. `knob` is `off`, `on` or `travelling`."""

    knob: str
    starter_in: bool
    turning: bool
    room_stop: bool
    mains: bool
    guard_down: bool = True
    extraction: bool = False


class SimulatedDrill:
    """A drill to be played by hand; every act may come from any thread.

    `now` gives seconds that only grow; `run_down` is how long the spindle turns on in seconds.
    """

    def __init__(self, now: Callable[[], float] = time.monotonic, run_down: float = 3.0) -> None:
        self._now, self._run_down = now, run_down
        self._lock = RLock()
        self._to_on, self._arrives = False, now()
        self._travel = 0.0
        self._starter, self._dropped = False, now() - run_down
        self._room_stop, self._mains = False, True
        self._guard_down, self._extraction = True, False

    def turn_isolator(self, on: bool) -> None:
        """Turn the knob; a slow hand takes its time, and the mains opens as it leaves *on*."""
        with self._lock:
            if on is not self._to_on:
                self._to_on, self._arrives = on, self._now() + self._travel
            if not on:
                self._drop()

    def slow_hand(self, seconds: float) -> None:
        """How long the knob is under way at every later turn; 0 for a quick hand."""
        with self._lock:
            self._travel = max(0.0, seconds)

    def press_start(self) -> None:
        """The green button: the starter pulls in if there is a supply."""
        with self._lock:
            self._starter = self._starter or self._has_supply()

    def press_stop(self) -> None:
        """The red button: the starter drops out."""
        with self._lock:
            self._drop()

    def press_room_stop(self) -> None:
        """The room stop latches: no supply to any machine until it is reset."""
        with self._lock:
            self._room_stop = True
            self._drop()

    def reset_room_stop(self) -> None:
        """The supply is back; after a no-volt release nothing starts by itself."""
        with self._lock:
            self._room_stop = False

    def cut_mains(self) -> None:
        """The supply fails: the no-volt release lets the starter drop out."""
        with self._lock:
            self._mains = False
            self._drop()

    def restore_mains(self) -> None:
        """The supply is back; nothing starts by itself."""
        with self._lock:
            self._mains = True

    def swing_guard(self, down: bool) -> None:
        """Swing the chuck guard down, or up out of the way."""
        with self._lock:
            self._guard_down = down

    def switch_extraction(self, on: bool) -> None:
        """Switch the dust extraction on or off; it has a supply of its own."""
        with self._lock:
            self._extraction = on

    @property
    def state(self) -> DrillState:
        """Everything an eye would see, at this moment."""
        with self._lock:
            return DrillState(
                self._knob(),
                self._starter,
                self._turning(),
                self._room_stop,
                self._mains,
                self._guard_down,
                self._extraction,
            )

    def levels(self) -> dict[int, bool]:
        """Which contacts are closed, at this moment. An isolator under way closes neither."""
        with self._lock:
            knob = self._knob()
            return {
                ISOLATOR_MAKE: knob == "on",
                ISOLATOR_BREAK: knob == "off",
                STARTER: self._starter,
                SPINDLE: self._turning(),
                GUARD: self._guard_down,
                EXTRACTION: self._extraction,
            }

    def _knob(self) -> str:
        if self._now() < self._arrives:
            return "travelling"
        return "on" if self._to_on else "off"

    def _has_supply(self) -> bool:
        return self._mains and not self._room_stop and self._knob() == "on"

    def _turning(self) -> bool:
        return self._starter or self._now() - self._dropped < self._run_down

    def _drop(self) -> None:
        if self._starter:
            self._starter, self._dropped = False, self._now()
