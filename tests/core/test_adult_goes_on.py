"""Two steps in a row that an adult does: who has done the first is still there at the second."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import StepDone, StillThereAsked
from kiosk.core.inputs import (
    AdultEnded,
    AskAdult,
    ByMistake,
    PickJob,
    PickPupil,
    PinChecked,
    SomethingWrong,
    SpellOk,
    TypePin,
)
from kiosk.core.rules import Judge
from kiosk.core.rules.folding import advance_past
from kiosk.core.rules.past import Turn
from kiosk.core.walk.beginning import begun as ground_begun
from tests.core.adults_story import badge, with_badges
from tests.core.guarded import ground
from tests.core.story import TEACHER, TECHNICIAN, Story, lesson_open

GOES_ON = "Ms Invented: I have done it"


def at_the_first_step() -> Story:
    """At the belt, which an adult moves; the table after it as well."""
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    while story.kiosk.session.step.id != "belt":
        story.do_step()
    return story


def at_the_second_step() -> Story:
    """The teacher has done the belt, by name and PIN."""
    story = at_the_first_step()
    story.touch(AskAdult("step"))
    story.pin()
    assert story.kiosk.session.step.id == "table"
    return story


def labels(story: Story) -> list[str]:
    return [b.label for b in story.buttons()]


def test_whoever_has_done_the_first_step_does_the_second_with_one_touch() -> None:
    story = at_the_second_step()
    before = story.touches

    assert GOES_ON in labels(story)
    story.touch(SpellOk())

    assert story.touches == before + 1
    assert story.events(StepDone)[-1] == StepDone("table", TEACHER.ref)
    assert story.kiosk.session.step.id == "bit"


def test_at_the_first_step_name_and_pin_are_asked_for() -> None:
    story = at_the_first_step()

    assert story.give(SpellOk()) == ()
    assert story.refusal == ""
    assert labels(story).count("Adult: PIN") == 1
    assert GOES_ON not in labels(story)


def test_another_adult_may_do_the_second_step_by_name_and_pin() -> None:
    story = at_the_second_step()

    story.touch(AskAdult("step"))
    story.pin(TECHNICIAN)

    assert story.events(StepDone)[-1] == StepDone("table", TECHNICIAN.ref)


def test_with_a_badge_it_is_the_same() -> None:
    story = with_badges(at_the_first_step())
    badge(story, TEACHER.ref)

    story.touch(SpellOk())

    assert story.events(StepDone)[-1] == StepDone("table", TEACHER.ref)


def test_it_never_gives_the_ok_to_start() -> None:
    story = at_the_second_step()
    story.touch(SpellOk())
    story.do_steps("adult_check")

    assert SpellOk() not in [b.touch for b in story.buttons()]
    assert story.give(SpellOk()) == ()


def a_minute(story: Story) -> None:
    story.wait(61)


def a_slip_of_a_finger(story: Story) -> None:
    story.touch(SomethingWrong())
    story.touch(ByMistake())


def a_wrong_pin(story: Story) -> None:
    story.touch(AskAdult("step"))
    story.pin_begun()
    story.give(TypePin(TEACHER.ref, "482915"))
    story.give(PinChecked(TEACHER.ref, False))


def the_adult_is_revoked(story: Story) -> None:
    story.give(AdultEnded(TEACHER.ref, "test"))


@pytest.mark.parametrize(
    "between", [a_minute, a_slip_of_a_finger, a_wrong_pin, the_adult_is_revoked]
)
def test_whatever_comes_between_asks_for_name_and_pin_again(between) -> None:
    story = at_the_second_step()

    between(story)

    assert GOES_ON not in labels(story)
    assert story.give(SpellOk()) == ()
    assert story.kiosk.session.step.id == "table"


def test_however_long_an_adults_step_takes_nobody_is_asked_for_and_the_adult_is_let_in() -> None:
    story = at_the_first_step()

    story.wait(1800)
    shown = story.view
    story.touch(AskAdult("step"))
    story.pin()

    assert "still there" not in shown.note
    assert story.events(StillThereAsked) == []
    assert story.kiosk.session.step.id == "table"


# --- what the judge says of it -------------------------------------------------------------------


def broken(story: Story, last: StepDone, seconds: float = 1.0) -> list[str]:
    """The rules that the judge finds broken if this comes after the story's record."""
    judge, past = Judge(ground().judge.house), ground_begun(ground(), ()).spot.past
    session = story.kiosk.session
    done = next(e for e in reversed(story.record) if isinstance(e.event, StepDone))
    past = advance_past(judge.house, replace(past, turn=Turn(session.plan, "sensed")), done, None)
    past = judge.rested(past)[0]
    story.wait(seconds)
    entry = replace(story.record[-1], at=story.now, event=last)
    return [found.rule.id for found in judge.judge(past, entry, session.step)[1]]


def test_the_judge_lets_the_same_adult_go_on_for_a_minute_and_nobody_else() -> None:
    same, other = StepDone("table", TEACHER.ref), StepDone("table", TECHNICIAN.ref)

    assert "adult_step" not in broken(at_the_second_step(), same, 59)
    assert "adult_step" in broken(at_the_second_step(), other, 1)
    assert "adult_step" in broken(at_the_second_step(), same, 61)
