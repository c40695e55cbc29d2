"""A line of the adult's that is not right: where it leads back to, what of the set-up stands."""

from __future__ import annotations

import pytest

from kiosk.core.events import CheckAsked, NotRight, OkGiven, StepDone
from kiosk.core.inputs import (
    AskAdult,
    GoBack,
    LeavePage,
    OpenPage,
    PickJob,
    PickNotRight,
    PickPupil,
    SeenRight,
)
from tests.core.story import Story, drill_one_hole
from tests.core.test_lesson import at_the_check

WORN = "eyes"


def fresh() -> Story:
    """At the check, with the whole set-up made in this turn."""
    return at_the_check()


def further() -> Story:
    """At the check before the second hole."""
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin()
    drill_one_hole(story)
    story.do_steps("adult_check")
    return story


def joining(number: int = 9) -> Story:
    """At the check of a pupil who found the set-up made."""
    story = further()
    story.touch(AskAdult("ok"))
    story.pin()
    drill_one_hole(story)
    story.do_steps("finished")
    story.touch(LeavePage())
    story.touch(PickPupil(number))
    story.touch(PickJob("hook_bar", 0))
    assert story.kiosk.session.path == "joining"
    story.do_steps("adult_check")
    return story


def is_not_right(story: Story, line: str) -> Story:
    story.touch(OpenPage("not_right"))
    story.touch(PickNotRight(line))
    assert story.events(NotRight) == [NotRight(line)]
    return story


def done_since(story: Story) -> list[str]:
    """The steps done since the line was not right."""
    at = next(n for n, e in enumerate(story.record) if isinstance(e.event, NotRight))
    return [e.event.step for e in story.record[at:] if isinstance(e.event, StepDone)]


# --- what a pupil wears --------------------------------------------------------------------------


@pytest.mark.parametrize("start", [fresh, joining, further])
def test_what_a_pupil_wears_is_put_right_on_one_screen_and_the_adult_looks_again(start) -> None:
    story = start()
    checks = len(story.events(CheckAsked))
    is_not_right(story, WORN)

    shown = story.view
    story.touch_kind(SeenRight)

    assert shown.lines[0] == "Goggles on."
    assert shown.note == "An adult saw that this is not right yet."
    assert story.view.screen == "adult_check"
    assert done_since(story) == ["ready_again"]
    assert len(story.events(CheckAsked)) == checks + 1


def test_clothes_void_nothing_of_the_set_up() -> None:
    story = joining()
    kept = story.kiosk.machine.set_up

    is_not_right(story, WORN)

    assert kept is not None
    assert story.kiosk.machine.set_up == kept


def test_after_what_is_worn_was_put_right_the_adult_gives_the_ok() -> None:
    story = is_not_right(joining(), WORN)
    story.touch_kind(SeenRight)
    oks = len(story.events(OkGiven))

    story.touch(AskAdult("ok"))
    story.pin()

    assert len(story.events(OkGiven)) == oks + 1
    assert story.view.screen == "drilling"


def test_there_is_no_way_back_past_what_is_put_right() -> None:
    story = is_not_right(joining(), WORN)

    story.give(GoBack())

    assert story.refusal == "no_way_back"
    assert GoBack() not in [b.touch for b in story.buttons()]


# --- the work ------------------------------------------------------------------------------------


def test_work_that_is_not_held_is_held_anew_and_not_only_pushed() -> None:
    story = is_not_right(fresh(), "push")

    assert story.kiosk.session.step.id == "hold_vice"


@pytest.mark.parametrize(
    ("number", "line", "step"),
    [
        (9, "push", "again_vice"),
        (14, "push", "own_vice_fluid"),
        (9, "guard_fluid", "guard_fluid_again"),
    ],
)
def test_a_line_of_the_work_stays_on_the_way_that_joined_a_kept_set_up(
    number: int, line: str, step: str
) -> None:
    story = joining(number)
    kept = story.kiosk.machine.set_up

    is_not_right(story, line)

    assert story.kiosk.session.path == "joining"
    assert story.kiosk.session.step.id == step
    assert story.kiosk.machine.set_up == kept
    story.do_steps("adult_check")


def test_work_that_is_not_held_at_the_next_hole_leads_to_the_next_holes_screen() -> None:
    story = is_not_right(further(), "push")

    assert story.kiosk.session.path == "further"
    assert "held" in [fact.value for fact in story.kiosk.session.step.makes]


# --- the set-up ----------------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["belt", "straight", "key"])
def test_a_line_of_the_set_up_voids_it(line: str) -> None:
    story = joining()

    is_not_right(story, line)

    assert story.kiosk.machine.set_up is None
    assert story.kiosk.session.path == "fresh"
    story.do_steps("adult_check")
