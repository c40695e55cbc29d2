"""A loop with its memory, errands and clock, to be driven turn by turn."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field, replace
from typing import Any

from kiosk.clock import Clock
from kiosk.core.events import Entry
from kiosk.core.inputs import PickJob, PickPupil, Touch, Touched
from kiosk.core.kiosk import Kiosk
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Moment
from kiosk.runtime.loop import Loop
from kiosk.runtime.partners import Fault
from tests.core.story import WORDS, Story, lesson_open, shop


class HandClock(Clock):
    """A clock that a test turns by hand."""

    def __init__(self, moment: Moment) -> None:
        super().__init__(moment.boot)
        self.moment = moment

    def us(self) -> int:
        return self.moment.us

    def now(self) -> Moment:
        return self.moment

    def pass_us(self, us: int) -> None:
        self.moment = replace(self.moment, us=self.moment.us + us, wall_us=self.moment.wall_us + us)


@dataclass
class Memory:
    """Keeps entries in a list; can be told to fail, or to be slow until let go."""

    entries: list[tuple[Entry, ...]] = field(default_factory=list)
    seq: int = 0
    fails: str = ""
    languages: dict[str, str] = field(default_factory=dict)
    habits: dict[str, str] = field(default_factory=dict)
    gate: threading.Event | None = None
    entered: threading.Event = field(default_factory=threading.Event)

    @property
    def head(self) -> tuple[int, str]:
        return self.seq, ""

    def append(self, entries: tuple[Entry, ...], kiosk: Kiosk, plan: Plan | None = None) -> None:
        self.entered.set()
        if self.gate is not None:
            self.gate.wait(20)
        if self.fails:
            fault = Fault(self.fails)
            fault.why = self.fails
            raise fault
        self.entries.append(entries)
        self.seq = entries[-1].seq

    def keep_language(self, ref: str, language: str) -> None:
        if self.fails:
            raise Fault(self.fails)
        self.languages[ref] = language

    def keep_habits(self, ref: str, habits: str) -> None:
        if self.fails:
            raise Fault(self.fails)
        self.habits[ref] = habits

    def keep_note(self, what: str, hazard: str, text: str) -> tuple[str, str]:
        if self.fails:
            raise Fault(self.fails)
        return "n1", "0" * 64


@dataclass
class Errands:
    """Remembers what it was asked."""

    pins: list[tuple[str, str]] = field(default_factory=list)
    spans: list[str] = field(default_factory=list)
    packages: list[tuple[str, ...]] = field(default_factory=list)
    sheets: list[tuple[str, str]] = field(default_factory=list)
    issued: list[tuple[str, str, str, str]] = field(default_factory=list)
    restarts: int = 0

    def check_pin(self, adult: str, digits: str) -> None:
        self.pins.append((adult, digits))

    def check_badge(self, digits: str) -> None:
        self.pins.append(("badge", digits))

    def check_code(self, adult: str, digits: str) -> None:
        self.pins.append((adult, digits))

    def issue(self, adult: str, what: str, by: str, digits: str) -> None:
        self.issued.append((adult, what, by, digits))

    def name_adult(self, name: str, role: str, kiosk: Kiosk) -> str:
        return "a7"

    def restart(self) -> None:
        self.restarts += 1

    def download(self, span: str) -> None:
        self.spans.append(span)

    def look_at_stick(self) -> None:
        self.packages.append(("look",))

    def read_sheet(self, sheet: str) -> None:
        self.sheets.append(("read", sheet))

    def write_sheet(self, sheet: str) -> None:
        self.sheets.append(("write", sheet))

    def take_package(self, package: str, by: str) -> None:
        self.packages.append((package, by))

    def carry_out(self, request: dict[str, Any], kiosk: Kiosk) -> tuple[None, dict[str, Any]]:
        if request["do"] == "fail":
            raise Fault("the card is full")
        return None, {"ok": True, "asked": request["do"]}


@dataclass
class Driven:
    """A loop with its memory, errands and clock, from where a story stands."""

    story: Story
    memory: Memory = field(default_factory=Memory)
    errands: Errands = field(default_factory=Errands)

    def __post_init__(self) -> None:
        self.clock = HandClock(self.story.now)
        self.memory.seq = len(self.story.record)
        self.loop = Loop(shop(), WORDS, self.memory, self.clock, self.errands, self.story.kiosk)
        self.turn()

    def turn(self) -> None:
        self.loop.turn(self.clock.now())

    def touch(self, touch: Touch) -> None:
        self.loop.post(Touched(self.loop.latest().number, touch))
        self.turn()


def in_set_up() -> Story:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    return story
