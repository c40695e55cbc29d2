"""A lesson end to end through the real decide, advance and show."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.events import (
    CheckAsked,
    HoleDrilled,
    Interrupted,
    OkGiven,
    SessionEnded,
    SessionStarted,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    Leave,
    LeavePage,
    OpenPage,
    PickJob,
    PickNotRight,
    PickPupil,
    SeenRight,
    SomethingWrong,
    SpellOk,
    Still,
    Touch,
)
from kiosk.core.kiosk import EMPTY, replay
from tests.core.story import Story, begun, drill_one_hole, lesson_open


def at_the_check(number: int = 5) -> Story:
    story = lesson_open()
    story.touch(PickPupil(number))
    story.touch(PickJob("hook_bar", 0))
    story.do_steps("adult_check")
    return story


def drilled(number: int = 5) -> Story:
    """A shown pupil has drilled both holes, each with an OK, and cleared up."""
    story = at_the_check(number)
    for hole in (1, 2):
        if hole == 2:
            story.do_steps("adult_check")
        story.touch(AskAdult("ok"))
        story.pin()
        drill_one_hole(story)
    story.do_steps("finished")
    story.touch(LeavePage())
    return story


def test_a_shown_pupil_drills_two_holes_each_with_an_ok() -> None:
    story = drilled()

    assert [e.run for e in story.events(HoleDrilled)] == ["sensed", "sensed"]
    assert len(story.events(OkGiven)) == 2
    assert story.events(SessionEnded) == [SessionEnded("finished")]
    assert story.view.screen == "idle"


def test_what_is_set_up_stands_before_the_other_jobs() -> None:
    story = lesson_open(("pen_block", "hook_bar"))
    fresh = first_jobs(story)
    story.touch(PickJob("hook_bar", 0))
    for _ in range(2):
        story.do_steps("adult_check")
        story.touch(AskAdult("ok"))
        story.pin()
        drill_one_hole(story)
    story.do_steps("finished")
    story.touch(LeavePage())

    kept = first_jobs(story)

    assert fresh == [PickJob("pen_block", 0), PickJob("pen_block", 1), PickJob("hook_bar", 0)]
    assert kept == [PickJob("hook_bar", 0), PickJob("pen_block", 0), PickJob("pen_block", 1)]


def first_jobs(story: Story) -> list[Touch]:
    """What a shown pupil may make, in its order."""
    story.touch(PickPupil(5))
    return [choice.touch for choice in story.view.choices]


def test_nothing_is_asked_between_the_ok_and_stopped_and_still() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin()

    story.reads("starter", "on")
    live = [b.touch for b in story.buttons()]

    assert live == [SomethingWrong()]


def test_still_is_refused_while_the_starter_reads_on() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin()
    story.reads("starter", "on")

    story.give(Still())

    assert story.refusal == "still_running"
    assert story.view.screen == "drilling"


def test_a_signed_off_pupil_joins_a_checked_set_up_without_a_new_check() -> None:
    story = drilled()
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))

    story.do_steps("drilling")

    assert len(story.events(CheckAsked)) == 2  # both of the shown pupil before


def test_a_kept_set_up_is_not_kept_after_ten_minutes() -> None:
    story = drilled()

    story.wait(601)
    story.touch(PickPupil(14))
    story.touch(PickJob("hook_bar", 0))

    assert story.events(SessionStarted)[-1].path == "fresh"


def test_a_kept_set_up_is_void_after_another_pupil_changed_it_and_left() -> None:
    story = drilled()
    story.touch(PickPupil(14))
    story.touch(PickJob("pen_block", 0))
    while story.kiosk.session.step.part in ("ready", "set-up"):
        story.do_step()
    story.touch(SomethingWrong())
    story.touch(Leave())
    story.touch(LeavePage())

    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))

    assert story.events(SessionStarted)[-1].path == "fresh"


def test_the_isolator_switched_on_during_set_up_halts_until_an_adult_looks() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    while story.kiosk.session.step.needs.value != "isolator off":
        story.do_step()

    story.reads("isolator", "on")

    assert story.events(Interrupted) == [Interrupted("isolator_on")]
    assert story.view.screen == "interruption"
    assert [b.look for b in story.view.buttons] == ["adult"]
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("again"))
    assert story.kiosk.session.step.part == "set-up"
    assert story.kiosk.machine.set_up is None


def test_the_step_waits_until_the_isolator_reads_off() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    while "isolator off" not in [f.value for f in story.kiosk.session.step.makes]:
        story.do_step()
    step = story.kiosk.session.step.id

    story.give(SeenRight(step))

    assert story.refusal == "isolator_not_off"
    assert story.kiosk.session.step.id == step


def test_not_right_goes_back_to_the_step_of_that_line_and_needs_a_new_check() -> None:
    story = at_the_check()
    story.touch(OpenPage("not_right"))
    story.touch(PickNotRight("straight"))

    assert story.kiosk.session.step.id == "straight"
    story.do_steps("adult_check")
    assert len(story.events(CheckAsked)) == 2


def test_an_attended_spell_needs_one_touch_a_hole_and_ends_after_two_minutes() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin(stay=1)
    drill_one_hole(story)
    story.do_steps("adult_check")

    story.touch(SpellOk())

    assert [e.by for e in story.events(OkGiven)] == ["pin", "spell"]
    drill_one_hole(story)
    story.wait(121)
    assert story.kiosk.lesson.spell is None


def test_a_wrong_pin_gives_no_ok_and_the_third_one_waits_thirty_seconds() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))

    for _ in range(3):
        story.pin(right=False)
        story.touch(LeavePage())
        story.touch(AskAdult("ok"))
    story.pin()

    assert story.refusal == "pin_wait"
    assert story.events(OkGiven) == []
    story.wait(31)
    story.touch(LeavePage())
    story.touch(AskAdult("ok"))
    story.pin()
    assert len(story.events(OkGiven)) == 1


def test_an_adults_own_use_voids_the_set_up_and_takes_three_touches_after_the_pin() -> None:
    story = drilled()
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("own_use"))
    story.reads("starter", "on")
    story.reads("starter", "off")

    story.touch(Act("own_use_end"))

    assert story.view.screen == "idle"
    assert story.kiosk.machine.set_up is None


def test_the_record_alone_gives_the_state_back() -> None:
    story = drilled()

    again = replay(story.record)

    assert replace(again, desk=EMPTY.desk) == replace(story.kiosk, desk=EMPTY.desk)


def test_no_lesson_opens_before_the_check_of_the_day() -> None:
    story = begun()
    story.touch(AskAdult("menu"))
    story.pin()

    story.touch(Act("open"))

    assert story.view.screen == "pre_use"


def test_a_wrong_number_is_taken_back_at_the_first_step() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))

    story.touch(Leave())

    assert story.events(SessionEnded) == [SessionEnded("left")]
    assert story.events(Interrupted) == []
