"""What happens behind *Something wrong?* and behind a halt is not wiped out."""

from __future__ import annotations

import pytest

from kiosk.core.events import Interrupted, MistakeCleared, RunWithoutOkSeen
from kiosk.core.inputs import (
    Act,
    AskAdult,
    ByMistake,
    Leave,
    OpenPage,
    PickJob,
    PickNotRight,
    PickPupil,
    PinChecked,
    SomethingWrong,
    TypePin,
)
from tests.core.story import TEACHER, Story, lesson_open
from tests.core.test_lesson import at_the_check


def with_hands_in() -> Story:
    """A pupil at a step that asks for the isolator off, with the pictures of trouble up."""
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    while story.kiosk.session.step.needs.value != "isolator off":
        story.do_step()
    story.touch(SomethingWrong())
    return story


@pytest.mark.parametrize(
    ("name", "reading", "why"),
    [
        ("isolator", "on", "isolator_on"),
        ("isolator", "unknown", "reading_lost"),
        ("starter", "on", "running"),
    ],
)
def test_a_reading_behind_the_pictures_halts_and_is_no_mistake(
    name: str, reading: str, why: str
) -> None:
    story = with_hands_in()

    story.reads(name, reading)

    assert story.events(Interrupted)[-1] == Interrupted(why)
    assert story.view.screen == "interruption"
    story.give(ByMistake())
    assert story.events(MistakeCleared) == []
    assert story.view.screen == "interruption"


def test_while_the_drill_is_seen_running_no_adult_is_asked_to_touch() -> None:
    story = with_hands_in()

    story.reads("starter", "on")

    assert [b.live for b in story.view.buttons] == [False]
    assert "still runs" in story.view.note
    story.reads("starter", "off")
    assert [b.live for b in story.view.buttons] == [True]


def test_a_pin_page_goes_when_the_drill_starts_and_the_pin_clears_nothing() -> None:
    story = with_hands_in()
    story.reads("isolator", "on")
    story.touch(AskAdult("clear"))
    story.pin_begun()
    story.give(TypePin(TEACHER.ref, "482915"))

    story.reads("starter", "on")
    story.give(PinChecked(TEACHER.ref, True))

    assert story.events(RunWithoutOkSeen) != []
    assert story.view.screen == "interruption"


def test_a_lost_reading_is_cleared_by_looking_or_not_at_all() -> None:
    story = with_hands_in()
    story.reads("isolator", "unknown")
    story.touch(AskAdult("clear"))
    story.pin()

    story.give(Act("again"))

    assert story.refusal == "isolator_unread"
    story.touch(Act("look"))
    assert story.kiosk.session.way == "said"
    assert any(b.live for b in story.view.buttons)


def test_after_not_right_the_step_says_that_an_adult_saw_it() -> None:
    story = at_the_check()
    story.touch(OpenPage("not_right"))

    story.touch(PickNotRight("straight"))

    assert story.view.note == "An adult saw that this is not right yet."
    story.do_step()
    assert story.view.note != "An adult saw that this is not right yet."


def test_another_pupil_than_the_screen_says_ends_the_turn() -> None:
    story = at_the_check()
    story.touch(OpenPage("not_right"))

    story.touch(Leave())

    assert story.kiosk.session is None


def test_out_of_use_names_what_was_not_right() -> None:
    story = lesson_open()
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("pre_use"))
    story.touch(Act("pre_use_wrong"))
    story.touch(Act("pre_use_item", "red_stop"))

    assert story.view.screen == "out_of_use"
    assert story.view.lines[0].startswith("Not right: ")
