"""The loop, driven turn by turn: one transaction a turn, warnings that don't wait, a slow card."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field, replace
from typing import Any

import pytest

from kiosk.clock import Clock
from kiosk.core.contacts import Sample
from kiosk.core.events import Entry, Interrupted, KioskStarted, PinTried, ReadingChanged, StepDone
from kiosk.core.inputs import (
    AskAdult,
    KioskBegan,
    PickAdult,
    PinChecked,
    SeenRight,
    SomethingWrong,
    Touch,
    Touched,
    TypePin,
)
from kiosk.core.kiosk import EMPTY, Kiosk
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Moment
from kiosk.runtime.inbox import Command
from kiosk.runtime.loop import SLOW_AFTER_US, WARN_AFTER_US, Loop
from kiosk.runtime.partners import Fault
from tests.core.story import TEACHER, WORDS, Story, lesson_open, shop
from tests.core.test_lesson import at_the_check


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

    def keep_note(self, what: str, hazard: str, text: str) -> tuple[str, str]:
        return "n1", "0" * 64


@dataclass
class Errands:
    """Remembers what it was asked."""

    pins: list[tuple[str, str]] = field(default_factory=list)
    spans: list[str] = field(default_factory=list)

    def check_pin(self, adult: str, digits: str) -> None:
        self.pins.append((adult, digits))

    def download(self, span: str) -> None:
        self.spans.append(span)

    def carry_out(self, request: dict[str, Any], kiosk: Kiosk) -> tuple[None, dict[str, Any]]:
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
    from kiosk.core.inputs import PickJob, PickPupil

    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    return story


def test_a_turn_writes_all_its_events_in_one_transaction() -> None:
    driven = Driven(Story())
    driven.loop.post(KioskBegan("drill-1", "test", "first"))

    driven.turn()

    assert [type(e.event) for e in driven.memory.entries[0]] == [KioskStarted]
    assert driven.loop.kiosk != EMPTY or driven.memory.seq == 1


def test_a_touch_made_from_an_older_view_is_dropped() -> None:
    driven = Driven(in_set_up())
    old = driven.loop.latest().number
    step = driven.loop.kiosk.session.step.id
    driven.touch(SeenRight(step))

    driven.loop.post(Touched(old, SeenRight(driven.loop.kiosk.session.step.id)))
    driven.turn()

    assert len(driven.memory.entries) == 1
    assert driven.loop.latest().number == old + 1


def test_two_taps_in_one_turn_are_one_step() -> None:
    driven = Driven(in_set_up())
    view = driven.loop.latest()
    first = driven.loop.kiosk.session.plan.fresh[0].id
    second = driven.loop.kiosk.session.plan.fresh[1].id
    driven.loop.post(Touched(view.number, SeenRight(first)))
    driven.loop.post(Touched(view.number, SeenRight(second)))

    driven.turn()

    assert driven.loop.kiosk.session.at == 1


def test_samples_come_before_touches() -> None:
    driven = Driven(in_set_up())
    step = driven.loop.kiosk.session.step.id
    driven.loop.post(Touched(driven.loop.latest().number, SeenRight(step)))
    driven.loop.post(Sample(driven.clock.us(), lost="unplugged"))

    driven.turn()

    kinds = [type(e.event) for e in driven.memory.entries[0]]
    assert kinds[:2] == [ReadingChanged, Interrupted]
    assert StepDone not in kinds
    assert driven.loop.latest().screen == "interruption"


def test_digits_go_to_the_errand_only_after_the_try_is_written() -> None:
    driven = Driven(at_the_check())
    driven.touch(AskAdult("ok"))
    driven.touch(PickAdult(TEACHER.ref))
    driven.memory.fails = "full"

    driven.touch(TypePin(TEACHER.ref, "482915"))

    assert driven.errands.pins == []
    driven.memory.fails = ""
    driven.clock.pass_us(2_000_000)
    driven.turn()
    assert driven.errands.pins == [(TEACHER.ref, "482915")]
    written = [e.event for lot in driven.memory.entries for e in lot]
    assert written == [PinTried(TEACHER.ref, "ok", 0)]


@pytest.mark.parametrize("why", ["full", "read_only", "failing"])
def test_a_record_that_cant_be_written_is_said_and_nothing_goes_on(why: str) -> None:
    driven = Driven(in_set_up())
    before = driven.loop.kiosk
    driven.memory.fails = why

    driven.touch(SeenRight(before.session.step.id))

    assert driven.loop.kiosk == before
    assert driven.loop.latest().screen == "record_fault"
    assert driven.loop.latest().title == WORDS.say(f"record_fault.{why}")
    assert driven.loop.latest().buttons == ()


def test_the_record_is_tried_again_and_work_goes_on_from_the_touch() -> None:
    driven = Driven(in_set_up())
    driven.memory.fails = "full"
    driven.touch(SeenRight(driven.loop.kiosk.session.step.id))
    driven.memory.fails = ""
    driven.clock.pass_us(1_100_000)

    driven.turn()

    assert driven.loop.kiosk.session.at == 1
    assert driven.loop.latest().screen == "step"


def test_at_the_drilling_screen_a_failing_record_only_adds_a_line() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin()
    driven = Driven(story)
    driven.memory.fails = "failing"

    driven.touch(SomethingWrong())

    view = driven.loop.latest()
    assert view.screen == "drilling"
    assert view.unsaved == WORDS.say("record_fault.failing")
    assert view.band is not None and "Lift clear" in view.band.text


def slow_commit(driven: Driven, touch: Touch) -> threading.Thread:
    """A turn whose commit hangs until the gate opens."""
    driven.memory.gate = threading.Event()
    driven.memory.entered.clear()
    driven.loop.post(Touched(driven.loop.latest().number, touch))
    thread = threading.Thread(target=driven.turn)
    thread.start()
    assert driven.memory.entered.wait(10)
    return thread


def finish(driven: Driven, thread: threading.Thread) -> None:
    assert driven.memory.gate is not None
    driven.memory.gate.set()
    thread.join(10)
    driven.memory.gate = None


def test_progress_waits_for_its_commit_and_further_touches_are_visibly_refused() -> None:
    driven = Driven(in_set_up())
    before = driven.loop.latest()
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))

    during = driven.loop.latest()
    driven.loop.post(Touched(before.number, SeenRight("hair")))
    refused = driven.loop.latest()
    finish(driven, thread)

    assert during.title == before.title
    assert refused.answer == WORDS.say("answer.saving")
    driven.clock.pass_us(5_000_000)
    assert driven.loop.latest().title != before.title
    assert driven.loop.kiosk.session.at == 1


def test_a_warning_does_not_wait_for_a_slow_card() -> None:
    driven = Driven(in_set_up())
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))
    driven.clock.pass_us(WARN_AFTER_US + 1)

    driven.loop.post(Touched(driven.loop.latest().number, SomethingWrong()))
    warned = driven.loop.latest()
    finish(driven, thread)
    driven.turn()

    assert warned.screen == "wrong"
    assert warned.unsaved == WORDS.say("unsaved.warning")
    assert driven.loop.latest().screen == "wrong"
    assert driven.loop.latest().unsaved == ""


def test_after_two_seconds_unsaved_the_kiosk_says_so() -> None:
    driven = Driven(in_set_up())
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))
    driven.clock.pass_us(SLOW_AFTER_US + 1)

    slow = driven.loop.latest()
    finish(driven, thread)

    assert slow.screen == "record_fault"
    assert slow.title == WORDS.say("record_fault.slow")


def test_a_refusal_is_shown_and_goes_away_by_itself() -> None:
    driven = Driven(in_set_up())
    step = next(s for s in driven.loop.kiosk.session.plan.fresh if s.who == "adult")
    driven.touch(SeenRight("hair"))  # not the step that stands: means nothing

    assert driven.loop.latest().answer == ""
    while driven.loop.kiosk.session.step.id != step.id:
        here = driven.loop.kiosk.session.step
        if driven.loop.latest().answer:
            break
        driven.touch(SeenRight(here.id))
    assert driven.loop.latest().answer == WORDS.say("answer.isolator_not_off")
    driven.clock.pass_us(6_000_000)
    driven.turn()
    assert driven.loop.latest().answer == ""


def test_a_stepped_wall_clock_is_an_event_and_nothing_else_changes() -> None:
    driven = Driven(in_set_up())
    moment = driven.clock.moment
    driven.clock.moment = replace(moment, wall_us=moment.wall_us + 3_600_000_000)

    driven.turn()

    written = [type(e.event).__name__ for lot in driven.memory.entries for e in lot]
    assert written == ["ClockStepped"]
    assert driven.loop.latest().screen == "step"


def test_a_command_is_answered_after_its_turn() -> None:
    driven = Driven(in_set_up())
    answers: list[dict[str, Any]] = []
    driven.loop.post(Command({"do": "ping"}, answers.append))

    driven.turn()

    assert answers == [{"ok": True, "asked": "ping"}]


def test_a_pin_checked_too_late_gives_no_ok() -> None:
    driven = Driven(at_the_check())
    driven.touch(AskAdult("ok"))
    driven.touch(PickAdult(TEACHER.ref))
    driven.touch(TypePin(TEACHER.ref, "482915"))
    driven.loop.post(Touched(driven.loop.latest().number, SomethingWrong()))
    driven.turn()

    driven.loop.post(PinChecked(TEACHER.ref, True))
    driven.turn()

    kinds = [type(e.event).__name__ for lot in driven.memory.entries for e in lot]
    assert "PinPassed" in kinds
    assert "OkGiven" not in kinds
    assert driven.loop.kiosk.session.halt is not None
