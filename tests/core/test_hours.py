"""Silent hours by the school's timetable, by clocks that are sure, doubtful and never set."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import HoursOverruled, SessionStarted
from kiosk.core.inputs import Act, KioskBegan, LeavePage, PickJob, PickPupil
from kiosk.core.kiosk import EMPTY, next_deadline, replay
from kiosk.core.kiosk.hours import is_silent
from kiosk.core.model import QuietSpan
from kiosk.core.units import Moment
from tests.core.adults_story import signed_in
from tests.core.care_story import at_the_menu, broken, shown
from tests.core.story import TEACHER, Story, drill_one_hole, lesson_open

NINE, HALF_PAST_ELEVEN = 1_800_000_000, 1_800_009_000  # 08:00 and 10:30 UTC on 2027-01-15
EXAM = QuietSpan(NINE, HALF_PAST_ELEVEN, 3600)
NEVER, RESTORED, SURE = 0, 1, 2


def exam_day(minutes: int, quality: int = SURE, story: Story | None = None) -> Story:
    """An open lesson, so many minutes after the exam began."""
    story = story or lesson_open()
    content = replace(story.shop.content, quiet=(EXAM,))
    story.shop = replace(story.shop, content=content)
    wall_us = (NINE + minutes * 60) * 1_000_000
    story.now = Moment(story.now.boot, story.now.us, wall_us, quality)
    return story


@pytest.mark.parametrize(("minutes", "silent"), [(-1, False), (0, True), (149, True), (150, False)])
def test_nobody_begins_from_the_first_minute_up_to_the_last(minutes: int, silent: bool) -> None:
    story = exam_day(minutes)

    story.give(PickPupil(21))

    assert (story.refusal == "no_lesson") == silent
    assert (story.view.title == "Silent hours") == silent
    assert is_silent(story.shop, story.kiosk, story.now) == silent


def test_the_screen_says_from_when_to_when_by_the_schools_own_clock() -> None:
    story = exam_day(10)

    assert story.view.lines == (
        "Nobody begins from 09:00 to 11:30.",
        "So says the school's timetable.",
    )


def test_the_screen_changes_by_itself_as_the_hours_begin_and_end() -> None:
    story = exam_day(-10)
    before = next_deadline(story.shop, story.kiosk, story.now)
    assert before is not None and before.us == story.now.us + 600 * 1_000_000

    story.wait(601)
    assert story.view.title == "Silent hours"
    story.now = replace(story.now, wall_us=HALF_PAST_ELEVEN * 1_000_000)
    assert story.view.title != "Silent hours"


def test_a_turn_under_way_goes_on_to_its_end() -> None:
    story = exam_day(-10)
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))

    exam_day(5, story=story)
    story.do_steps("adult_check")
    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
    story.pin()
    drill_one_hole(story)

    assert story.kiosk.session is not None and story.kiosk.session.done == 1
    assert broken(story) == set()


def test_a_sure_clock_is_not_argued_with() -> None:
    story = exam_day(10)
    at_the_menu(story, TEACHER)

    assert not {Act("hours_wrong"), Act("quiet_end"), Act("own_use")} & set(shown(story))
    for act in ("hours_wrong", "own_use"):
        story.give(Act(act))
    assert story.refusal == "silent"
    assert is_silent(story.shop, story.kiosk, story.now)


def test_a_doubtful_clock_keeps_the_hours_says_so_and_an_adult_may_end_them() -> None:
    story = exam_day(10, RESTORED)
    assert story.view.lines[-1] == "The clock may be wrong. An adult can say so."
    at_the_menu(story, TEACHER)
    assert "The clock may be wrong. It says 2027-01-15, 09:10." in story.view.lines

    story.touch(Act("hours_wrong"))

    assert story.events(HoursOverruled) == [HoursOverruled("a1", HALF_PAST_ELEVEN)]
    story.touch(LeavePage())
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))
    assert len(story.events(SessionStarted)) == 1
    assert broken(story) == set()
    assert replay(story.record, EMPTY).care == story.kiosk.care


def overruled() -> Story:
    story = exam_day(10, RESTORED)
    at_the_menu(story, TEACHER)
    story.touch(Act("hours_wrong"))
    story.touch(LeavePage())
    return story


def test_what_an_adult_said_of_the_clock_is_over_once_the_clock_is_set() -> None:
    story = overruled()

    story.now = replace(story.now, quality=SURE)

    assert is_silent(story.shop, story.kiosk, story.now)


def test_what_an_adult_said_of_the_clock_is_over_with_a_restart_and_with_those_hours() -> None:
    story = overruled()
    assert not is_silent(story.shop, story.kiosk, story.now)
    tomorrow = QuietSpan(NINE + 86_400, HALF_PAST_ELEVEN + 86_400, 3600)
    content = replace(story.shop.content, quiet=(EXAM, tomorrow))
    shop = replace(story.shop, content=content)
    later = replace(story.now, wall_us=story.now.wall_us + 86_400_000_000)
    assert is_silent(shop, story.kiosk, later)

    story.give(KioskBegan("drill-1", "test", "clean"))
    assert is_silent(story.shop, story.kiosk, story.now)


def test_a_clock_that_was_never_set_keeps_no_timetable_and_every_adult_is_told() -> None:
    story = exam_day(0, NEVER, signed_in(TEACHER))
    story.now = replace(story.now, wall_us=600_000_000)

    assert not is_silent(story.shop, story.kiosk, story.now)
    assert "The clock is not set: the timetable of silent hours is not kept." in story.view.lines


def test_no_text_ticks_since_a_change_would_hold_a_finger_back() -> None:
    story = exam_day(10, RESTORED)
    before = story.view
    later = story.now.wall_us + 61_000_000
    story.now = replace(story.now, wall_us=later)
    assert story.view == before

    at_the_menu(story, TEACHER)
    before = story.view
    story.now = replace(story.now, wall_us=later + 61_000_000)
    assert story.view == before


def test_before_the_hours_an_adult_is_told_that_the_clock_may_be_wrong() -> None:
    story = exam_day(-600, RESTORED)
    at_the_menu(story, TEACHER)
    assert "The clock may be wrong. It says 2027-01-14, 23:00." in story.view.lines

    story.now = replace(story.now, quality=SURE)
    assert not any("clock" in line for line in story.view.lines)


def test_the_judge_finds_a_turn_that_begins_in_the_timetables_hours() -> None:
    story = exam_day(-10)
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))
    assert broken(story) == set()

    last = story.record[-1]
    story.record[-1] = replace(last, at=replace(last.at, wall_us=NINE * 1_000_000))

    assert "in_a_lesson" in broken(story)
