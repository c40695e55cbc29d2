"""The loop, driven turn by turn: one transaction a turn, warnings that don't wait, a slow card."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from kiosk.core.contacts import Sample
from kiosk.core.events import (
    Interrupted,
    KioskStarted,
    Noted,
    PinTried,
    ReadingChanged,
    RestartAsked,
    StepDone,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    KioskBegan,
    PickAdult,
    PinChecked,
    SeenRight,
    SomethingWrong,
    Touched,
    TypeNote,
    TypePin,
)
from kiosk.core.kiosk import EMPTY
from kiosk.runtime.inbox import Command
from tests.core.adults_story import signed_in
from tests.core.story import TEACHER, WORDS, Story
from tests.core.test_lesson import at_the_check
from tests.runtime.driven import Driven, in_set_up


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


def test_news_is_told_of_another_view_and_of_nothing_else() -> None:
    driven = Driven(in_set_up())
    told: list[str] = []
    driven.loop.on_news = lambda: told.append(driven.loop.latest().title)

    driven.turn()
    driven.loop.post(Sample(driven.clock.us()))
    driven.turn()
    nothing_new = list(told)
    driven.touch(SeenRight(driven.loop.kiosk.session.step.id))

    assert nothing_new == []
    assert told == [driven.loop.latest().title]
    assert not driven.loop.is_restless


def test_a_restart_that_a_technician_asked_for_is_sent_once_it_is_recorded() -> None:
    driven = Driven(signed_in())

    driven.touch(Act("ask_restart"))
    assert driven.errands.restarts == 0
    driven.touch(Act("restart"))

    assert driven.errands.restarts == 1
    assert any(e.event == RestartAsked("a2") for batch in driven.memory.entries for e in batch)


def test_a_note_that_the_card_does_not_take_is_refused_and_its_screen_stays() -> None:
    driven = Driven(signed_in())
    for touch in (Act("note"), Choose("note_what", "near_miss"), Choose("note_hazard", "swarf")):
        driven.touch(touch)
    note = driven.loop.latest()
    assert note.keys is not None
    driven.memory.fails = "full"

    driven.touch(TypeNote(note.keys.what, note.keys.hazard, "the guard stuck"))
    refused = driven.loop.latest()
    driven.memory.fails = ""
    driven.touch(TypeNote(note.keys.what, note.keys.hazard, "the guard stuck"))

    assert refused.answer == WORDS.say("answer.recording")
    assert refused.number == note.number  # so what was typed still stands on the keyboard
    assert [type(e.event) for lot in driven.memory.entries for e in lot][-1] is Noted


def test_a_command_that_the_card_does_not_take_has_its_answer_and_the_loop_goes_on() -> None:
    driven, answers = Driven(in_set_up()), []
    for do in ("fail", "ping"):
        driven.loop.post(Command({"do": do}, answers.append))

    driven.turn()

    assert answers == [{"ok": False, "why": "the card is full"}, {"ok": True, "asked": "ping"}]
