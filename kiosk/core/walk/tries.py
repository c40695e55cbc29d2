"""Everything that can be tried at a state: touches shown and not shown, readings, time, power.

A try is one input, or a few that belong together: a reading that changes just before a touch,
three wrong PINs, eleven minutes and then a number. Each input goes through `decide`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import TypeAlias

from kiosk.core import inputs as given
from kiosk.core.inputs import Input, Touch
from kiosk.core.kiosk.asks import halt_of, recovery_step
from kiosk.core.kiosk.badge_acts import badge_purpose
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import (
    ASK_AFTER_S,
    DESK_FOR_S,
    GONE_AFTER_S,
    KEPT_FOR_S,
    PRE_USE_FOR_S,
    SPELL_FOR_S,
)
from kiosk.core.model import Reading
from kiosk.core.walk.grounds import OTHER, WORK, Ground
from kiosk.core.walk.spots import LESSON_S, Spot, region_of
from kiosk.core.walk.touching import ADULTS, Stands, stands, touches_at

PIN = "482915"
DEADLINES = {
    "ask": ASK_AFTER_S,
    "gone": GONE_AFTER_S,
    "desk": DESK_FOR_S,
    "spell": SPELL_FOR_S,
    "lesson": LESSON_S,
}
AT_THE_OFFICE = (given.AskAdult("menu"), given.Act("out"), given.Act("out_why", "fault"))
HOLE_S = 900.0  # longer than any hole takes
READINGS = (Reading.OFF, Reading.ON, Reading.FAULT)

Readings: TypeAlias = tuple[tuple[str, Reading], ...]


@dataclass(frozen=True)
class Step:
    """One input, some seconds after the one before; after a power cut in a new boot."""

    given: Input
    after_s: float = 1.0
    boot: str = ""


@dataclass(frozen=True)
class Try:
    """What is tried, after what came `before`, which several tries share and is a try itself.

    `sensible`: what people who want to get on would do, or what may happen.
    """

    steps: tuple[Step, ...]
    sensible: bool = False
    before: Try | None = None

    @property
    def whole(self) -> tuple[Step, ...]:
        """All its steps."""
        return (*self.before.whole, *self.steps) if self.before else self.steps


def one(what: Input, sensible: bool = False, after_s: float = 1.0) -> Try:
    """A single input."""
    return Try((Step(what, after_s),), sensible)


def tries(
    ground: Ground, spot: Spot, shown: tuple[Touch, ...], office: bool = True
) -> Iterator[Try]:
    """All that is tried at a state whose screen shows these touches.

    `office`: also what an adult does from the menu while no pupil is at the drill, and a drill
    taken out of use. None of it goes by a plan, so it is walked once, not for every kind of
    machine.
    """
    kiosk, region = spot.kiosk, region_of(spot.kiosk)
    if kiosk.session and kiosk.session.asked:
        yield from _asked(shown)
        return
    yield from _touched(ground, shown, stands(ground, kiosk), office)
    yield from _pins(kiosk)
    if office or badge_purpose(ground.shop, kiosk) != "menu":
        yield from _badges(kiosk)
    yield from _readings(ground, kiosk)
    if region in ("room", "halt"):
        yield from _just_before(ground, kiosk, shown)
    yield from _time(kiosk)
    yield from _power(ground)
    if region != "step":
        yield from _others(kiosk)


def _asked(shown: tuple[Touch, ...]) -> Iterator[Try]:
    """*Still there?* changes nothing but what time leads to."""
    yield from (one(touch, True) for touch in shown)
    yield one(given.DeadlinePassed("gone"), True, GONE_AFTER_S)


@cache
def _touched(
    ground: Ground, shown: tuple[Touch, ...], standing: Stands, office: bool
) -> tuple[Try, ...]:
    """Every touch shown, and one or more of every kind that is not."""
    touches = dict.fromkeys((*shown, *touches_at(ground, standing)))
    for touch in () if office else AT_THE_OFFICE:
        touches.pop(touch, None)
    return tuple(one(touch, touch in shown) for touch in touches)


# --- adults' PINs --------------------------------------------------------------------------------


def _pins(kiosk: Kiosk) -> Iterator[Try]:
    trying, desk = kiosk.adults.trying, kiosk.desk
    if trying and trying.way == "pin":
        yield one(given.PinChecked(trying.adult, True), True)
        yield one(given.PinChecked(trying.adult, False))
    others = [a for a in ADULTS if trying is None or a != trying.adult]
    yield one(given.PinChecked(others[0], True))
    for adult in ADULTS:
        yield one(given.TypePin(adult, PIN), desk.adult == adult)
    if desk.page == "pin":
        yield one(given.TypePin(desk.adult, PIN, 1), True)
        yield _three_wrong(desk.adult)


def _badges(kiosk: Kiosk) -> Iterator[Try]:
    """A badge held to the reader on any screen; whose it is, or nobody's and another at once."""
    yield one(given.BadgeRead(PIN), True)
    yield from (one(given.BadgeChecked(adult), True) for adult in ADULTS)
    if kiosk.adults.trying is None:
        return
    yield one(given.BadgeChecked(""))
    yield Try((Step(given.BadgeChecked("")), Step(given.BadgeRead(PIN), after_s=0.5)))


def _three_wrong(adult: str) -> Try:
    """Three wrong PINs, and the next one at once."""
    wrong = (Step(given.TypePin(adult, PIN)), Step(given.PinChecked(adult, False)))
    return Try((*wrong, *wrong, *wrong, Step(given.TypePin(adult, PIN))))


# --- readings ------------------------------------------------------------------------------------


def _reading(name: str, reading: Reading) -> given.ReadingIs:
    return given.ReadingIs(name, reading, "settled")


def _readings(ground: Ground, kiosk: Kiosk) -> Iterator[Try]:
    for name in ground.shape.features.inputs:
        now = kiosk.machine.reading(name)
        lost = now is Reading.UNKNOWN
        others = READINGS[:2] if lost else READINGS
        yield from (one(_reading(name, r), True) for r in others if r is not now)


def _just_before(ground: Ground, kiosk: Kiosk, shown: tuple[Touch, ...]) -> Iterator[Try]:
    """A reading that changes just before a touch that may go by it."""
    anyhow = halt_of(kiosk) is not None
    touches = [t for t in _going_by_readings(ground, kiosk) if anyhow or t in shown]
    for readings in _changes(ground.shape.features.inputs) if touches else ():
        before = _before(readings)
        if len(readings) > 1 or readings[0][1] not in READINGS:  # else `_readings` tries it
            yield before
        for touch in touches:
            yield Try((Step(touch),), True, before)


@cache
def _before(readings: Readings) -> Try:
    return Try(tuple(Step(_reading(name, reading)) for name, reading in readings), True)


@cache
def _changes(inputs: tuple[str, ...]) -> tuple[Readings, ...]:
    return tuple(_changes_of(inputs))


def _changes_of(inputs: tuple[str, ...]) -> Iterator[Readings]:
    runs = [name for name in inputs if name in ("starter", "spindle")]
    lost = [(name, Reading.UNKNOWN) for name in runs]
    if "isolator" in inputs:
        yield (("isolator", Reading.OFF),)
        yield (("isolator", Reading.UNKNOWN),)
        yield (("isolator", Reading.UNKNOWN), *lost)
        yield from ((("isolator", Reading.OFF), (name, Reading.ON)) for name in runs)
    yield from (((name, Reading.ON),) for name in runs)
    if lost:
        yield tuple(lost)


def _going_by_readings(ground: Ground, kiosk: Kiosk) -> Iterator[Touch]:
    halt = halt_of(kiosk)
    due = recovery_step(ground.shop, halt) if halt else None
    if due:
        yield given.SeenRight(due.id)
    if halt and kiosk.desk.signed:
        yield from (given.Act(act) for act in ("again", "look", "end"))
    if kiosk.session is None:
        yield from (given.Still(), given.PickPupil(1), given.PickJob(WORK, 0))
        yield given.PickJob(OTHER, 0)


# --- time, power and the rest --------------------------------------------------------------------


def _time(kiosk: Kiosk) -> Iterator[Try]:
    if kiosk.session and kiosk.session.is_drilling:
        yield one(given.Still(), True, HOLE_S)
    for kind, seconds in DEADLINES.items():
        yield one(given.DeadlinePassed(kind), True, seconds + 0.001)
    if kiosk.session:
        return
    starts = (given.PickPupil(1), given.PickJob(WORK, 0), given.PickJob(OTHER, 0))
    for touch in (*starts, given.Act("open")):
        yield one(touch, after_s=PRE_USE_FOR_S + 60.0)
    for touch in starts:
        yield one(touch, after_s=KEPT_FOR_S + 60.0)
        yield one(touch, after_s=LESSON_S + 60.0)


def _power(ground: Ground) -> Iterator[Try]:
    """A restart: in order, after a crash, after a power cut."""
    machine = ground.shop.machine.id
    yield one(given.KioskBegan(machine, "walk", "clean"))
    yield Try((Step(given.KioskBegan(machine, "walk", "cut"), 60.0, boot="walk again"),), True)


def _others(kiosk: Kiosk) -> Iterator[Try]:
    yield one(given.KioskEnding())
    yield one(given.ClockMoved(5, 2))
    if kiosk.desk.signed or kiosk.desk.page == "note_text":
        yield one(given.NoteKept("n1", "note", "other", "0" * 64), kiosk.desk.page == "note_text")
    if kiosk.desk.page == "download":
        yield one(given.DownloadMoved(1, 2))
        yield one(given.DownloadEnded("week", "full"), True)
    yield one(given.DownloadEnded("week", "", 1, 2, "0" * 64))
    yield one(given.PackageIn("walk", "0" * 64, 1, ("school",)))
