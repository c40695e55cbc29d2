"""The bench: a simulated drill wired to a simulated contact unit, played by hand.

Wired as the shipped machine is: isolator make contact on input 0, its break contact on 1, the
starter's make contact on 2. The bench strip and the tour call the acts; each may come from any
thread. Nothing here is drawn.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from hardware.simulator import DrillState, SimulatedDrill, SimulatedUnit
from hardware.simulator.answers import ANSWER_FAULTS

MAKE, BREAK = 0, 1
SLOW_S = 0.7  # under way for less than the discrepancy time of 1 s


@dataclass(frozen=True)
class BenchState:
    """What the strip shows: the drill, the levels at the unit, and what is wrong on purpose."""

    drill: DrillState
    levels: tuple[tuple[int, bool], ...]
    plugged: bool
    slow: bool
    wire_off: bool
    swapped: bool
    shorted: bool = False
    stuck: bool = False
    answer: str = ""


class Bench:
    """One drill and its contact unit, plugged in; `port` is the path for the kiosk.

    Usable as a context manager; `close` leaves no thread and no file behind.
    """

    def __init__(self, run_down: float = 4.0) -> None:
        self.drill = SimulatedDrill(run_down=run_down)
        self.unit = SimulatedUnit(self.drill.levels)
        self._slow = self._wire_off = self._swapped = self._shorted = self._stuck = False
        self._answer = ""
        self.unit.plug()

    @property
    def port(self) -> str:
        """The stable path of the unit's port."""
        return self.unit.port

    @property
    def state(self) -> BenchState:
        """Everything the strip shows, at this moment."""
        return BenchState(
            self.drill.state,
            tuple(sorted(self.unit.wires.peek().items())),
            self.unit.is_plugged,
            self._slow,
            self._wire_off,
            self._swapped,
            self._shorted,
            self._stuck,
            self._answer,
        )

    def isolator_on(self) -> None:
        """Turn the isolator's knob to I."""
        self.drill.turn_isolator(True)

    def isolator_off(self) -> None:
        """Turn the isolator's knob to O."""
        self.drill.turn_isolator(False)

    def slow_hand(self, slow: bool = True) -> None:
        """Turn the knob slowly from now on, or quickly again."""
        self._slow = slow
        self.drill.slow_hand(SLOW_S if slow else 0.0)

    def bounce(self) -> None:
        """The contacts open and close a few times as if knocked."""
        self.unit.wires.bounce()

    def press_start(self) -> None:
        """Press the green button."""
        self.drill.press_start()

    def press_stop(self) -> None:
        """Press the red button."""
        self.drill.press_stop()

    def wire_off(self) -> None:
        """The common wire of the isolator's two contacts comes off: both read open."""
        self._wire_off = True
        self.unit.wires.take_off(MAKE, BREAK)

    def wire_back(self) -> None:
        """The wire is put back."""
        self._wire_off = False
        self.unit.wires.put_back(MAKE, BREAK)

    def swap(self) -> None:
        """The isolator's two wires are exchanged; a second time puts them right."""
        self._swapped = not self._swapped
        self.unit.wires.swap(MAKE, BREAK)

    def short(self, shorted: bool = True) -> None:
        """The isolator's two contacts are shorted: both read closed; or sound again."""
        self._shorted = shorted
        self._fix(self.unit.wires.short if shorted else self.unit.wires.put_back)

    def stick(self, stuck: bool = True) -> None:
        """The isolator's make contact stays as it is; or moves again."""
        self._stuck = stuck
        (self.unit.wires.stick if stuck else self.unit.wires.put_back)(MAKE)

    def next_answer(self) -> None:
        """The unit answers with its next fault; after the last it answers rightly again."""
        faults = ("", *ANSWER_FAULTS)
        self._answer = faults[(faults.index(self._answer) + 1) % len(faults)]
        self.unit.order(self._answer)

    def move(self) -> None:
        """Plug the unit into another socket: the same path leads to another terminal."""
        self.unit.move()

    def guard(self, down: bool) -> None:
        """Swing the guard down, or up."""
        self.drill.swing_guard(down)

    def _fix(self, act: Callable[[int, int], None]) -> None:
        act(MAKE, BREAK)

    def unplug(self) -> None:
        """Pull the contact unit out."""
        self.unit.unplug()

    def plug(self) -> None:
        """Plug the contact unit in; its terminal may be another one, its path is the same."""
        self.unit.plug()

    def room_stop(self) -> None:
        """Press the room stop."""
        self.drill.press_room_stop()

    def room_stop_reset(self) -> None:
        """Reset the room stop; the drill does not start by itself."""
        self.drill.reset_room_stop()

    def close(self) -> None:
        """Take everything down."""
        self.unit.close()

    def __enter__(self) -> Bench:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()
