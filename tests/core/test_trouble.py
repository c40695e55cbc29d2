"""What goes wrong: restarts, lost readings, runs without an OK, Something wrong?, nobody there."""

from __future__ import annotations

import pytest

from kiosk.core.events import (
    HoleDrilled,
    Interrupted,
    InterruptionCleared,
    MistakeCleared,
    Noted,
    RunWithoutOkSeen,
    SessionEnded,
    StillAsked,
    TroubleNamed,
    TroubleSeen,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    ByMistake,
    Choose,
    LeavePage,
    NameTrouble,
    NotDrilled,
    NoteKept,
    PickJob,
    PickPupil,
    SomethingWrong,
    Still,
)
from tests.core.story import TECHNICIAN, Story, begun, drill_one_hole, lesson_open
from tests.core.test_lesson import at_the_check, drilled


def drilling() -> Story:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin()
    return story


def test_a_reading_lost_during_set_up_halts_and_the_adult_may_choose_looking() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.do_step()

    story.reads("isolator", "unknown")

    assert story.events(Interrupted) == [Interrupted("reading_lost")]
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("look"))
    assert story.kiosk.session.way == "said"


def test_a_reading_lost_while_drilling_only_adds_a_line_and_halts_once_still() -> None:
    story = drilling()
    story.reads("starter", "on")

    story.reads("isolator", "unknown")
    story.reads("starter", "unknown")

    assert story.view.screen == "drilling"
    assert story.view.band.text == "Lift clear. Press the red stop."
    story.touch(Still())
    assert [e.run for e in story.events(HoleDrilled)] == ["said"]
    assert story.view.screen == "interruption"


def test_something_wrong_while_drilling_adds_a_line_and_asks_what_only_when_still() -> None:
    story = drilling()
    story.reads("starter", "on")

    story.touch(SomethingWrong())

    assert story.events(TroubleSeen) == [TroubleSeen("wrong")]
    assert story.view.screen == "drilling"
    story.reads("starter", "off")
    story.wait(10)
    story.touch(Still())
    assert story.view.screen == "wrong"
    assert story.events(HoleDrilled) == []


def test_a_broken_bit_is_followed_by_its_recovery_and_a_new_set_up() -> None:
    story = drilling()
    story.reads("starter", "on")
    story.touch(SomethingWrong())
    story.reads("starter", "off")
    story.wait(10)
    story.touch(Still())

    story.touch(NameTrouble("bit_broken"))
    story.recover()
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("again"))

    assert story.events(TroubleNamed) == [TroubleNamed("bit_broken")]
    assert [e.choice for e in story.events(InterruptionCleared)] == ["again"]
    assert story.kiosk.session.step.part == "set-up"
    assert story.kiosk.session.changed


def test_pressed_by_mistake_clears_itself_when_nothing_was_running() -> None:
    story = at_the_check()
    story.touch(SomethingWrong())

    story.touch(ByMistake())

    assert len(story.events(MistakeCleared)) == 1
    assert story.view.screen == "adult_check"


def test_pressed_by_mistake_needs_an_adult_when_it_was_running() -> None:
    story = drilling()
    story.reads("starter", "on")
    story.touch(SomethingWrong())
    story.reads("starter", "off")
    story.wait(10)
    story.touch(Still())

    story.give(ByMistake())

    assert story.refusal == "was_running"
    assert [b.touch for b in story.view.buttons] == [AskAdult("clear")]
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("again"))
    assert story.kiosk.session.step.part == "set-up"


def test_no_run_seen_asks_once_more_and_can_be_taken_back() -> None:
    story = drilling()

    story.touch(Still())

    assert story.events(StillAsked) == [StillAsked(1)]
    story.touch(NotDrilled())
    assert story.view.screen == "drilling"
    assert not story.kiosk.session.still_asked
    story.touch(Still())
    story.touch(Still())
    assert [e.run for e in story.events(HoleDrilled)] == ["said"]


def test_a_run_without_an_ok_is_recorded_and_voids_the_set_up() -> None:
    story = drilled()

    story.reads("starter", "on")

    assert story.events(RunWithoutOkSeen) == [RunWithoutOkSeen("starter")]
    assert story.kiosk.machine.set_up is None


def test_the_drill_started_during_set_up_halts_the_session() -> None:
    story = at_the_check()

    story.reads("starter", "on")

    assert story.events(Interrupted) == [Interrupted("running")]
    assert story.view.screen == "interruption"


def test_nobody_touching_asks_after_a_minute_and_closes_after_three() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))

    story.wait(61)
    assert story.view.note == "Are you still there? Touch below."
    assert story.view.lines == ()
    assert [(b.label, b.live) for b in story.view.buttons] == [("I am here", True)]
    story.wait(120)

    assert story.events(SessionEnded) == [SessionEnded("closed")]


def test_a_drilling_screen_without_a_contact_that_says_off_never_closes() -> None:
    story = drilling()
    story.reads("starter", "unknown")

    story.wait(3600)

    assert story.view.screen == "drilling"


def test_the_lesson_does_not_end_under_a_pupil() -> None:
    story = drilling()
    story.reads("starter", "on")

    story.wait(3 * 3600)

    assert story.view.screen == "drilling"
    assert story.kiosk.lesson is not None


def test_someone_hurt_with_no_session_open_is_recorded_and_waits_for_an_adult() -> None:
    story = begun()
    story.touch(SomethingWrong())

    story.touch(NameTrouble("hurt"))

    assert story.view.screen == "recovery"
    story.wait(600)
    assert story.view.screen == "recovery"
    story.recover()
    story.touch(AskAdult("clear"))
    story.pin(TECHNICIAN)
    story.touch(Act("note"))
    story.touch(Choose("note_what", "incident"))
    story.touch(Choose("note_hazard", story.shop.content.assessment.hazards[0].id))
    story.give(NoteKept("n1", "incident", story.shop.content.assessment.hazards[0].id, "0" * 64))
    story.touch(Act("end"))
    assert len(story.events(Noted)) == 1
    assert story.view.screen == "idle"


def test_for_someone_hurt_the_pupil_reads_what_to_do_and_the_adult_who_came_the_rest() -> None:
    story = at_the_check()
    story.touch(SomethingWrong())

    story.touch(NameTrouble("hurt"))
    pupils = story.view
    story.touch(AskAdult("clear"))
    story.pin()

    words = (pupils.band.text if pupils.band else "", *pupils.lines)
    assert words[:2] == ("Press the red stop.", "Shout for an adult now.")
    assert [b.look for b in pupils.buttons] == ["adult"]
    assert story.view.title == "The person first"
    assert "Follow the school's first-aid plan." in story.view.lines
    assert not set(words) & set(story.view.lines)


def test_with_somebody_hurt_the_note_comes_first_and_no_help_to_start_is_offered() -> None:
    offered = {}

    for trouble in ("hurt", "bit_broken"):
        story = at_the_check()
        story.touch(SomethingWrong())
        story.touch(NameTrouble(trouble))
        story.recover()
        story.touch(AskAdult("clear"))
        story.pin()
        offered[trouble] = [c.touch.what for c in story.view.choices]

    assert offered["hurt"] == ["note", "end", "out"]
    assert offered["bit_broken"] == ["again", "end", "note", "help_start"]


def test_after_every_hole_an_interruption_leads_to_clearing_up_not_to_a_third_hole() -> None:
    story = drilling()
    drill_one_hole(story)
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin()
    drill_one_hole(story)
    story.touch(SomethingWrong())
    story.touch(NameTrouble("smoke"))
    story.recover()
    story.touch(AskAdult("clear"))
    story.pin()

    story.touch(Act("again"))

    assert story.kiosk.session.path == "clear"


@pytest.mark.parametrize("role", ["teacher"])
def test_only_a_technician_returns_the_drill_to_use(role: str) -> None:
    story = begun()
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("out"))
    story.touch(Act("out_why", "fault"))
    story.touch(AskAdult("menu"))
    story.pin()

    assert Act("return") not in [b.touch for b in story.buttons()]
    story.give(Act("return"))

    assert story.refusal == "technician_only"
    story.touch(LeavePage())
    story.touch(AskAdult("menu"))
    story.pin(TECHNICIAN)
    story.touch(Act("return"))
    assert story.kiosk.machine.out_of_use == ""
