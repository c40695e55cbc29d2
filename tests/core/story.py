"""A lesson told by touches and readings, with time handed in: for tests of the whole core.

A `Story` drives the real `decide`, `advance` and `show`. Touches go by what the screen shows,
so a test cannot touch a button that isn't there.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from kiosk.content import load
from kiosk.core.events import Entry, Event
from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    Choose,
    DeadlinePassed,
    Input,
    KioskBegan,
    LevelsRead,
    PickAdult,
    PinChecked,
    ReadingIs,
    SeenRight,
    Still,
    Touch,
    TypePin,
)
from kiosk.core.kiosk import EMPTY, Kiosk, Shop, advance, decide, next_deadline
from kiosk.core.model import Adult, Content, Group, Level, Pupil, Reading, Roster
from kiosk.core.units import Moment
from kiosk.core.view import Button, View, show
from kiosk.core.words import Words

TREE = Path(__file__).resolve().parents[2]
LOADED = load(TREE / "sequences")
assert LOADED.content is not None, "\n".join(str(p) for p in LOADED.problems)
CONTENT: Content = LOADED.content
WORDS: Words = LOADED.words
TEACHER = Adult("a1", "Ms Invented", "teacher")
TECHNICIAN = Adult("a2", "Mr Invented", "technician")
PUPILS = (
    Pupil("p5", 5, Level.SHOWN),
    Pupil("p14", 14, Level.SUPERVISED),
    Pupil("p21", 21, Level.SIGNED_OFF),
    Pupil("p9", 9, Level.ADULT_BESIDE),
)
GROUP = Group("8b", "Year 8 blue", PUPILS)


def shop(machine: str = "drill-1") -> Shop:
    """A workshop with the shipped content and an invented group."""
    found = CONTENT.machine(machine)
    assert found is not None
    return Shop(CONTENT, found, Roster((GROUP,), (TEACHER, TECHNICIAN)), "test")


@dataclass
class Story:
    """The kiosk so far, what was recorded, and the time."""

    shop: Shop = field(default_factory=shop)
    kiosk: Kiosk = EMPTY
    now: Moment = Moment("boot1", 1_000_000_000, 1_700_000_000_000_000, 1)
    record: list[Entry] = field(default_factory=list)
    refusal: str = ""
    touches: int = 0

    def give(self, given: Input) -> tuple[Event, ...]:
        """Hand in one input and take in what follows."""
        decided = decide(self.shop, self.kiosk, given, self.now)
        self.refusal = decided.refusal
        for event in decided.events:
            seq = len(self.record) + 1 if event.recorded else 0
            entry = Entry(seq, self.now, event, decided.plan)
            self.kiosk = advance(self.kiosk, entry)
            if seq:
                self.record.append(entry)
        return decided.events

    def wait(self, seconds: float) -> None:
        """Let time pass, with every deadline on the way."""
        until = self.now.us + round(seconds * 1_000_000)
        while (due := next_deadline(self.shop, self.kiosk, self.now)) and due.us <= until:
            self._at(max(due.us, self.now.us))
            self.give(DeadlinePassed(due.kind))
            if next_deadline(self.shop, self.kiosk, self.now) == due:
                raise AssertionError(f"the deadline {due} does not go away")
        self._at(until)

    def _at(self, us: int) -> None:
        self.now = replace(self.now, us=us, wall_us=self.now.wall_us + us - self.now.us)

    def reads(self, name: str, reading: str) -> tuple[Event, ...]:
        """A contact's reading settles."""
        return self.give(ReadingIs(name, Reading(reading), "settled"))

    # --- by what is shown --------------------------------------------------------------------

    @property
    def view(self) -> View:
        """What the screen shows."""
        return show(self.shop, self.kiosk, WORDS, self.now, self.refusal)

    def buttons(self) -> tuple[Button, ...]:
        """Every button on the screen that answers."""
        view = self.view
        called = tuple(b for b in (view.head.wrong, view.head.stop) if b)
        return tuple(b for b in (*view.buttons, *view.choices, *called) if b.live)

    def touch(self, touch: Touch) -> tuple[Event, ...]:
        """Touch a button that is shown."""
        shown = [b.touch for b in self.buttons()]
        assert touch in shown, f"{touch} is not on the screen {self.view.screen}: {shown}"
        self.touches += 1
        return self.give(touch)

    def touch_kind(self, kind: type[Touch]) -> tuple[Event, ...]:
        """Touch the one button of a kind."""
        found = [b.touch for b in self.buttons() if isinstance(b.touch, kind)]
        assert found, f"no {kind.__name__} on the screen {self.view.screen} ({self.view.title})"
        return self.touch(found[0])

    def pin_begun(self, adult: Adult = TEACHER) -> None:
        """Pick a name, so that the pad comes up."""
        self.touch(PickAdult(adult.ref))

    def pin(self, adult: Adult = TEACHER, right: bool = True, stay: int = 0) -> None:
        """Pick a name and type a PIN that the worker finds right or wrong."""
        self.pin_begun(adult)
        assert self.view.pad is not None
        self.touches += 6
        self.give(TypePin(adult.ref, "482915", stay))
        if self.kiosk.adults.trying:
            self.give(PinChecked(adult.ref, right))

    def do_steps(self, until: str) -> None:
        """Touch through steps, an adult's by PIN, up to a screen called `until`."""
        for _ in range(60):
            if self.view.screen == until:
                return
            self.do_step()
        raise AssertionError(f"never came to {until}, stands at {self.view.screen}")

    def do_step(self) -> None:
        """Do the one step shown: turn the isolator where asked, then touch its button."""
        step = self.kiosk.session.step if self.kiosk.session else None
        if step and "isolator off" in [f.value for f in step.makes]:
            self.reads("isolator", "off")
        if step and step.who == "adult":
            self.touch(next(b.touch for b in self.buttons() if b.look == "adult"))
            if self.view.screen == "form":
                self.pin()
            return
        self.touch_kind(SeenRight)

    def recover(self) -> None:
        """Do the pupil's part of a recovery; whoever comes to its isolator turns it off."""
        self.reads("isolator", "off")
        while not any(b.look == "adult" for b in self.buttons()):
            self.touch_kind(SeenRight)

    def events(self, kind: type[Event]) -> list[Event]:
        """The recorded events of a kind."""
        return [e.event for e in self.record if isinstance(e.event, kind)]


def begun() -> Story:
    """A kiosk that has started, with two adults and readings of a drill at rest."""
    story = Story()
    story.give(KioskBegan("drill-1", "test", "first"))
    people_known(story, tuple((p.ref, p.level.word) for p in PUPILS))
    return story


def people_known(story: Story, levels: tuple[tuple[str, str], ...]) -> None:
    """Two adults have PINs, pupils have levels, and the drill is at rest."""
    story.give(AdultIssued(TEACHER.ref, TEACHER.role, "test"))
    story.give(AdultIssued(TECHNICIAN.ref, TECHNICIAN.role, "test"))
    story.give(LevelsRead(levels))
    story.reads("isolator", "on")
    story.reads("starter", "off")


def lesson_open(jobs: tuple[str, ...] = ("hook_bar", "pen_block")) -> Story:
    """A lesson opened by the teacher after the check of the day."""
    story = begun()
    lesson_opened(story, jobs)
    return story


def lesson_opened(story: Story, jobs: tuple[str, ...], minutes: int = 60) -> None:
    """The teacher opens a lesson after the check of the day."""
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("open"))
    story.touch(Act("pre_use_right"))
    story.touch(Choose("group", "8b"))
    for job in jobs:
        story.touch(Choose("jobs", job))
    story.touch(Act("jobs_done"))
    story.touch(Choose("length", str(minutes)))


def drill_one_hole(story: Story) -> None:
    """Start, stop, wait for still, touch."""
    story.reads("isolator", "on")
    story.wait(3)
    story.reads("starter", "on")
    story.wait(20)
    story.reads("starter", "off")
    story.wait(story.shop.machine.run_down.s + 1)
    story.touch(Still())
