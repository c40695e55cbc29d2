"""Where the walk begins to look for what a missing guard lets through: on small shapes, near by."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from kiosk.core import inputs as given
from kiosk.core.inputs import Input
from kiosk.core.kiosk.asks import wants_isolator_off
from kiosk.core.model import Content, Level, Reading
from kiosk.core.plan.shape import Plan
from kiosk.core.plan.trials import outcome_of, trials
from kiosk.core.rules import RULES, Rule
from kiosk.core.walk import OPEN_LESSON, Proof, Shape, prove, shape_of
from kiosk.core.walk.beginning import begun
from kiosk.core.walk.giving import Done, give
from kiosk.core.walk.grounds import TEACHER, WORK, Ground, ground_for
from kiosk.core.walk.spots import later
from kiosk.core.walk.tries import PIN
from kiosk.core.words import Words

MOST_S = 10.0  # of the processor's time: no mutant may take longer


@dataclass(frozen=True)
class Arena:
    """A machine, a pupil's level, and the place in a lesson where the walk begins."""

    machine: str
    level: Level
    start: str

    def __str__(self) -> str:
        return f"{self.machine}, {self.level.value}, {self.start}"


STARTS = (
    "lesson",
    "check",
    "drilling",
    "hole",
    "kept",
    "wrong",
    "stopped",
    "cut",
    "hands",
    "desk",
    "unread",
)
ARENAS = (
    *(Arena("drill-3", Level.SUPERVISED, start) for start in STARTS),
    *(Arena("drill-1", Level.SUPERVISED, start) for start in STARTS),
    Arena("drill-3", Level.SIGNED_OFF, "kept"),
    Arena("drill-3", Level.SUPERVISED, "office"),
)


class OutOfTime(Exception):
    """The walk took longer than a mutant may."""


@cache
def shape_on(content: Content, words: Words, machine: str, level: Level, holes: int = 2) -> Shape:
    """The shape of a small job of the content on a machine; one of three holes is part-way."""
    for trial in trials(content):
        if trial.machine.id == machine and trial.level is level and trial.is_job:
            plan = outcome_of(content, words, trial).plan
            if isinstance(plan, Plan) and min(plan.holes, 3) == holes == _wanted(plan):
                return shape_of(plan, trial)
    raise LookupError(f"no job of {holes} holes on {machine}")


def _wanted(plan: Plan) -> int:
    """Two holes right through, or three part-way."""
    return 2 if plan.set_up.stop is None else 3


@cache
def place_of(arena: Arena, content: Content, words: Words) -> tuple[Shape, tuple[Input, ...]]:
    """An arena's shape and the way to its place, led by the whole reducer."""
    shape = shape_on(content, words, arena.machine, arena.level)
    return shape, way_to(arena.start, ground_for(content, shape))


def proof_in(
    arena: Arena, content: Content, words: Words, rules: tuple[Rule, ...] = RULES
) -> Proof:
    """The walk from an arena's place; raises `OutOfTime` where it takes too long."""
    shape, first = place_of(arena, content, words)
    office = arena.start in ("office", "desk")
    return prove(content, words, (shape,), office, rules, _in_time(MOST_S), first)


def _in_time(seconds: float) -> Callable[[int], None]:
    end = time.process_time() + seconds

    def told(_: int) -> None:
        if time.process_time() > end:
            raise OutOfTime

    return told


# --- the way to a place --------------------------------------------------------------------------


def way_to(start: str, ground: Ground) -> tuple[Input, ...]:
    """What is given before the walk begins; the office begins with the kiosk's first start."""
    if start == "office":
        return ()
    led = Led(ground)
    getattr(led, f"to_{start}")()
    return (*OPEN_LESSON, *led.given)


class Led:
    """A lesson that is led to a place as a careful pupil and a teacher would."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        self.done: Done = begun(ground, OPEN_LESSON)
        self.given: list[Input] = []

    def give(self, *what: Input) -> None:
        for one in what:
            self.done.now = later(self.done.now, 1.0)
            give(self.ground, self.done, one)
            self.given.append(one)

    def reads(self, name: str, reading: Reading) -> None:
        machine = self.ground.shop.machine
        if machine.wiring.has(name) and self.done.spot.kiosk.machine.reading(name) is not reading:
            self.give(given.ReadingIs(name, reading, "settled"))

    def adult(self, purpose: str, stay: int = 0) -> None:
        typed = given.TypePin(TEACHER.ref, PIN, stay)
        checked = given.PinChecked(TEACHER.ref, True)
        self.give(given.AskAdult(purpose), given.PickAdult(TEACHER.ref), typed, checked)

    def steps_until(self, *parts: str) -> None:
        while (session := self.done.spot.kiosk.session) and session.step.part not in parts:
            off = wants_isolator_off(session.step)
            self.reads("isolator", Reading.OFF if off else Reading.ON)
            if session.step.who == "adult":
                self.adult("step")
            else:
                self.give(given.SeenRight(session.step.id))

    def to_lesson(self) -> None:
        for name in ("starter", "spindle"):
            self.reads(name, Reading.OFF)
        self.reads("isolator", Reading.ON)

    def to_hands(self) -> None:
        self.to_lesson()
        self.give(given.PickPupil(1), given.PickJob(WORK, 0))
        session = self.done.spot.kiosk.session
        while session and not wants_isolator_off(session.step):
            self.give(given.SeenRight(session.step.id))
            session = self.done.spot.kiosk.session

    def to_check(self) -> None:
        self.to_lesson()
        self.give(given.PickPupil(1), given.PickJob(WORK, 0))
        self.steps_until("check", "drill")

    def to_drilling(self) -> None:
        self.to_check()
        self.adult("ok", 1)

    def to_hole(self) -> None:
        self.to_drilling()
        self.drills()

    def drills(self) -> None:
        for reading in (Reading.ON, Reading.OFF):
            self.reads("starter", reading)
        self.done.now = later(self.done.now, 60.0)
        self.give(given.ReadingIs("guard", Reading.OFF, "settled"), given.Still())
        self.give(given.Still())

    def to_kept(self) -> None:
        self.to_hole()
        self.steps_until("check", "drill")
        if self.done.spot.kiosk.session and not self.done.spot.kiosk.session.is_drilling:
            self.adult("ok")
        self.drills()
        self.steps_until("nothing")

    def to_wrong(self) -> None:
        self.to_hands()
        trouble = self.ground.shop.content.recoveries[0].id
        self.give(given.SomethingWrong(), given.NameTrouble(trouble))

    def to_freed(self) -> None:
        self.to_hands()
        self.give(given.SomethingWrong(), given.NameTrouble("work_spun"))
        for step in self.ground.judge.house.recovery("work_spun"):
            self.give(given.SeenRight(step.id))
        self.reads("isolator", Reading.OFF)
        self.adult("clear")
        self.give(given.Act("again"))

    def to_unread(self) -> None:
        self.to_lesson()
        self.reads("isolator", Reading.UNKNOWN)
        self.give(given.PickPupil(1), given.PickJob(WORK, 0))

    def to_stopped(self) -> None:
        self.to_hands()
        self.give(given.StopEveryone())

    def to_cut(self) -> None:
        self.to_hands()
        self.give(given.KioskBegan(self.ground.shop.machine.id, "walk", "cut"))

    def to_desk(self) -> None:
        self.to_lesson()
        self.adult("menu")
