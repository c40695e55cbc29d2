"""Acts at the drill and faults of its wires in plain words, by hand or as a script with times.

One act a line: `isolator on`, `press start`, `wire off 0 1`, `answer late`. In a script each
line begins with the seconds since the script began; `#` begins a remark.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from hardware.simulator.answers import ANSWER_FAULTS
from hardware.simulator.drill import SimulatedDrill
from hardware.simulator.unit import SimulatedUnit

Do = Callable[[SimulatedDrill, SimulatedUnit], None]
SLOW_HAND_S = 0.7  # under way for less than the discrepancy time of 1 s


def _answers(fault: str) -> Do:
    return lambda drill, unit: unit.order(fault)


ACTS: Mapping[str, Do] = MappingProxyType(
    {
        "isolator on": lambda drill, unit: drill.turn_isolator(True),
        "isolator off": lambda drill, unit: drill.turn_isolator(False),
        "slow hand": lambda drill, unit: drill.slow_hand(SLOW_HAND_S),
        "quick hand": lambda drill, unit: drill.slow_hand(0.0),
        "press start": lambda drill, unit: drill.press_start(),
        "press stop": lambda drill, unit: drill.press_stop(),
        "room stop": lambda drill, unit: drill.press_room_stop(),
        "room stop reset": lambda drill, unit: drill.reset_room_stop(),
        "guard up": lambda drill, unit: drill.swing_guard(False),
        "guard down": lambda drill, unit: drill.swing_guard(True),
        "extraction on": lambda drill, unit: drill.switch_extraction(True),
        "extraction off": lambda drill, unit: drill.switch_extraction(False),
        "bounce": lambda drill, unit: unit.wires.bounce(),
        "swap": lambda drill, unit: unit.wires.swap(),
        "unplug": lambda drill, unit: unit.unplug(),
        "plug": lambda drill, unit: unit.plug(),
        "move": lambda drill, unit: unit.move(),
        "answer right": lambda drill, unit: unit.order(),
        **{f"answer {fault}": _answers(fault) for fault in ANSWER_FAULTS},
    }
)
"""Every act that needs no number."""

WIRES: Mapping[str, Callable[[SimulatedUnit, tuple[int, ...]], None]] = MappingProxyType(
    {
        "wire off": lambda unit, numbers: unit.wires.take_off(*numbers),
        "shorted": lambda unit, numbers: unit.wires.short(*numbers),
        "stuck": lambda unit, numbers: unit.wires.stick(*numbers),
        "sound": lambda unit, numbers: unit.wires.put_back(*numbers),
    }
)
"""Every act on the inputs whose numbers follow it."""


class NotAnAct(ValueError):
    """A line that says no act; the text says where, what was found and what is allowed."""


@dataclass(frozen=True)
class Act:
    """One act and when it is due, in seconds since the script began."""

    at: float
    words: str
    do: Do


def act_of(words: str) -> Do:
    """What the words of one act do. Raises `NotAnAct`."""
    plain = " ".join(words.split())
    if plain in ACTS:
        return ACTS[plain]
    for begins, do in WIRES.items():
        numbers = plain.removeprefix(begins).split()
        if plain.startswith(f"{begins} ") and all(n.isdigit() for n in numbers):
            wires = tuple(int(n) for n in numbers)
            return lambda drill, unit: do(unit, wires)
    allowed = ", ".join((*ACTS, *(f"{w} NUMBERS" for w in WIRES)))
    raise NotAnAct(f"{plain!r} is no act; allowed: {allowed}")


def read_script(text: str) -> tuple[Act, ...]:
    """The acts of a script in order. Raises `NotAnAct` with the line's number."""
    acts: list[Act] = []
    for number, line in enumerate(text.splitlines(), start=1):
        said = line.partition("#")[0].strip()
        if said:
            acts.append(_line(said, number, acts[-1].at if acts else 0.0))
    return tuple(acts)


def _line(said: str, number: int, before: float) -> Act:
    when, *said_then = said.split()
    words = " ".join(said_then)
    try:
        at = float(when)
    except ValueError:
        raise NotAnAct(f"line {number}: {when!r} is no number of seconds such as 2.5") from None
    if not before <= at < 1e6:
        raise NotAnAct(f"line {number}: {when} s does not come after {before:g} s")
    try:
        return Act(at, words, act_of(words))
    except NotAnAct as wrong:
        raise NotAnAct(f"line {number}: {wrong}") from None


def play(
    acts: tuple[Act, ...],
    drill: SimulatedDrill,
    unit: SimulatedUnit,
    wait: Callable[[float], object] = time.sleep,
    told: Callable[[Act], object] = lambda act: None,
) -> None:
    """Do each act when it is due: `wait` is handed the seconds since the act before."""
    now = 0.0
    for act in acts:
        wait(act.at - now)
        now = act.at
        act.do(drill, unit)
        told(act)
