"""*Everyone stop*: one touch on every screen of a lesson; an adult lets work go on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import (
    DrillingShown,
    EveryoneStopped,
    InterruptionCleared,
    Resumed,
    SessionEnded,
    SessionStarted,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    BadgeChecked,
    BadgeRead,
    Choose,
    Leave,
    LeavePage,
    NameTrouble,
    PickAdult,
    PickJob,
    PickPupil,
    PinChecked,
    SomethingWrong,
    StopEveryone,
    TypePin,
)
from tests.core.adults_story import COVER, at_the_check, with_badges, with_cover
from tests.core.story import (
    TEACHER,
    WORDS,
    Story,
    begun,
    drill_one_hole,
    lesson_open,
)

VOIDED = ("everyone", "interruption", "own_use", "run", "restart", "changed", "not_right")


def at_work() -> Story:
    """Number 5 sets up."""
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    return story


def drilling() -> Story:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin()
    assert story.view.screen == "drilling"
    return story


def can_stop(story: Story) -> bool:
    return StopEveryone() in [b.touch for b in story.buttons()]


def test_it_is_one_touch_on_every_screen_of_a_lesson_but_the_drilling_screen() -> None:
    story = lesson_open()
    assert can_stop(story)
    story.touch(PickPupil(5))
    assert can_stop(story)
    story.touch(PickJob("hook_bar", 0))
    while story.view.screen != "drilling":
        assert can_stop(story), story.view.title
        waits = story.view.screen == "adult_check"
        (story.touch(AskAdult("ok")), story.pin()) if waits else story.do_step()
    drill_one_hole(story)
    assert can_stop(story)


def test_a_set_up_that_an_everyone_stop_voided_is_said_to_be_void_for_that() -> None:
    story = drilling()
    drill_one_hole(story)
    story.touch(StopEveryone())
    story.touch(AskAdult("resume"))
    story.pin()
    story.give(Leave())
    story.give(LeavePage())

    assert story.view.screen == "idle"
    assert story.view.lines == ("Not set up any more: everyone was stopped.",)


def test_where_nothing_was_set_up_an_everyone_stop_voids_nothing() -> None:
    story = lesson_open()
    story.touch(StopEveryone())
    story.touch(AskAdult("resume"))
    story.pin()

    assert story.view.lines == ("The drill is not set up yet.",)


def test_a_new_lesson_knows_nothing_of_a_stop_before_it() -> None:
    story = lesson_open()
    kept = replace(story.kiosk.machine, void_why="everyone")
    story.kiosk = replace(story.kiosk, machine=kept)
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("close"))

    story.touch(AskAdult("menu"))
    story.pin()
    for touch in (Act("open"), Choose("group", "8b"), Choose("jobs", "hook_bar")):
        story.touch(touch)
    story.touch(Act("jobs_done"))
    story.touch(Choose("length", "60"))

    assert story.view.lines == ("The drill is not set up yet.",)


@pytest.mark.parametrize("why", VOIDED)
def test_every_reason_why_a_set_up_is_void_is_said(why: str) -> None:
    story = lesson_open()
    kept = replace(story.kiosk.machine, void_why=why)
    story.kiosk = replace(story.kiosk, machine=kept)

    (line,) = story.view.lines

    assert line.startswith("Not set up any more: ")
    assert all(f"idle.void.{why}" in words.texts for words in WORDS.others.values())


def test_before_a_lesson_and_after_a_restart_there_is_nobody_to_stop() -> None:
    assert begun().view.head.stop is None


def test_at_the_idle_screen_nobody_begins_until_an_adult_lets_work_go_on() -> None:
    story = lesson_open()

    story.touch(StopEveryone())

    assert story.view.title == "Everyone stop"
    assert story.view.head.stop is not None and not story.view.head.stop.live
    assert story.give(PickPupil(5)) == () and not story.events(SessionStarted)
    story.touch(AskAdult("resume"))
    story.pin()
    assert story.events(Resumed) == [Resumed(TEACHER.ref)]
    story.touch(PickPupil(5))


def test_a_turn_is_halted_and_goes_on_from_making_the_set_up_again() -> None:
    story = at_work()
    story.do_step()

    story.touch(StopEveryone())

    assert (story.view.screen, story.view.title) == ("interruption", "Everyone stop")
    story.touch(AskAdult("resume"))
    story.pin()
    assert story.record[-2].event == Resumed(TEACHER.ref)
    assert story.record[-1].event == InterruptionCleared(TEACHER.ref, "again")
    assert story.view.screen == "step" and not story.events(SessionEnded)


def test_an_adult_may_end_the_halted_turn_and_work_still_waits() -> None:
    story = at_work()
    story.touch(StopEveryone())
    story.touch(AskAdult("clear"))
    story.pin()

    assert Act("again") not in [b.touch for b in story.buttons()]
    story.touch(Act("end"))

    assert story.events(SessionEnded) == [SessionEnded("ended")]
    assert story.kiosk.lesson is not None and story.kiosk.lesson.stopped


def test_while_the_drill_may_be_turning_it_is_not_asked_for_and_changes_nothing() -> None:
    story = drilling()
    story.reads("isolator", "on")
    story.reads("starter", "on")

    assert story.view.head.stop is None
    assert story.give(StopEveryone()) == ()
    assert story.view.screen == "drilling"


def test_an_ok_that_was_being_typed_counts_for_nothing_afterwards() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.touch(PickAdult(TEACHER.ref))
    story.give(TypePin(TEACHER.ref, "482915"))
    story.give(StopEveryone())

    story.give(BadgeChecked(TEACHER.ref))
    story.touch(AskAdult("resume"))
    if story.view.screen == "form":
        story.pin()

    assert not story.events(DrillingShown)


def test_a_badge_lets_work_go_on_with_one_touch() -> None:
    story = with_badges(at_work())
    story.touch(StopEveryone())

    story.give(BadgeRead("0012345678"))
    story.give(BadgeChecked(TEACHER.ref))

    assert story.events(Resumed) == [Resumed(TEACHER.ref)]


def test_another_trouble_is_seen_to_first_and_then_everyone_still_waits() -> None:
    story = at_work()
    story.touch(SomethingWrong())
    story.touch(NameTrouble("bit_broken"))
    story.touch(StopEveryone())
    assert story.view.screen == "recovery"
    story.recover()
    story.touch(AskAdult("clear"))
    story.pin()

    story.touch(Act("again"))

    assert story.view.title == "Everyone stop"
    assert story.give(AskAdult("resume"))


def test_work_goes_on_by_looking_where_the_isolator_was_lost_meanwhile() -> None:
    story = at_work()
    story.touch(StopEveryone())
    story.reads("isolator", "unknown")

    story.touch(AskAdult("resume"))
    story.pin()

    assert story.events(InterruptionCleared)[-1] == InterruptionCleared(TEACHER.ref, "look")


@pytest.mark.parametrize(("role", "may"), [("cover", True), ("assistant", False)])
def test_a_cover_teacher_lets_work_go_on_and_an_assistant_does_not(role: str, may: bool) -> None:
    story = with_cover(lesson_open(), days=3, role=role)
    story.touch(StopEveryone())
    story.touch(AskAdult("resume"))

    offered = PickAdult(COVER.ref) in [b.touch for b in story.buttons()]
    story.give(PickAdult(COVER.ref))
    story.give(TypePin(COVER.ref, "482915"))
    story.give(PinChecked(COVER.ref, True))

    assert offered is may
    assert story.events(Resumed) == ([Resumed(COVER.ref)] if may else [])


def test_who_stopped_everyone_is_recorded_where_an_adult_stays_at_the_drill() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin(stay=1)
    drill_one_hole(story)

    story.touch(StopEveryone())

    assert story.events(EveryoneStopped) == [EveryoneStopped(TEACHER.ref)]
