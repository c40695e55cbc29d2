"""How the kiosk comes back: is it turning?, the lesson's adult, no reading to go by."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.events import SaidAllowed, SessionEnded, SessionStarted, StillConfirmed
from kiosk.core.inputs import Act, AskAdult, KioskBegan, PickJob, PickPupil, SeenRight, Still
from tests.core.story import Story, begun, lesson_open
from tests.core.test_trouble import drilling


def restart(story: Story) -> Story:
    story.give(KioskBegan("drill-1", "test", "cut"))
    return story


def test_a_restart_in_the_middle_of_a_hole_asks_first_whether_it_is_turning() -> None:
    story = restart(drilling())

    assert story.view.screen == "restart"
    assert story.view.title == "Is it turning? Press the red stop."
    assert story.events(SessionEnded) == [SessionEnded("cut_short")]
    assert story.kiosk.session is None


def test_after_a_restart_the_lesson_needs_its_adult_and_the_set_up_is_void() -> None:
    story = restart(drilling())
    story.reads("starter", "off")

    story.touch(Still())

    assert story.events(StillConfirmed) == [StillConfirmed("sensed")]
    assert [b.touch for b in story.view.buttons] == [AskAdult("confirm")]
    assert story.kiosk.machine.set_up is None
    story.touch(AskAdult("confirm"))
    story.pin()
    assert story.view.choices


def test_a_restart_does_not_take_still_while_the_starter_reads_on() -> None:
    story = restart(drilling())
    story.reads("starter", "on")

    story.give(Still())

    assert story.refusal == "still_running"
    assert story.view.screen == "restart"


def test_with_no_reading_an_adult_must_allow_going_on_by_looking() -> None:
    story = lesson_open()
    story.reads("isolator", "unknown")

    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))

    assert story.events(SessionStarted)[-1].way == "unread"
    assert story.view.screen == "interruption"
    story.touch(AskAdult("said"))
    story.pin()
    assert len(story.events(SaidAllowed)) == 1
    assert story.kiosk.session.way == "said"
    story.touch_kind(SeenRight)


def test_no_lesson_opens_on_a_record_with_kinds_of_event_that_are_not_known() -> None:
    story = begun()
    story.shop = replace(story.shop, reads_all=False)
    story.touch(AskAdult("menu"))
    story.pin()

    story.touch(Act("open"))

    assert story.refusal == "newer_record"
    assert story.view.screen == "menu"
