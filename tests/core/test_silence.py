"""Silent hours, and an adult's own holes counted when they care to."""

from __future__ import annotations

from kiosk.core.events import OwnHoleCounted, OwnUseEnded, SilenceAsked, SilenceEnded
from kiosk.core.inputs import Act, AskAdult, KioskBegan, LeavePage, PickJob, PickPupil, Still
from kiosk.core.kiosk import EMPTY, replay
from tests.core.adults_story import signed_in
from tests.core.care_story import broken, shown
from tests.core.story import TEACHER, Story, drill_one_hole, lesson_open


def silent(minutes: int = 30) -> Story:
    story = lesson_open()
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("quiet"))
    story.touch(Act("quiet", str(minutes)))
    story.touch(LeavePage())
    return story


def test_in_silent_hours_nobody_begins() -> None:
    story = silent()

    story.give(PickPupil(21))

    assert story.refusal == "no_lesson"
    assert story.view.title == "Silent hours"
    assert story.events(SilenceAsked) == [SilenceAsked("a1", 1800)]


def test_they_end_by_themselves_and_the_lesson_goes_on() -> None:
    story = silent(30)

    story.wait(30 * 60 + 1)

    assert story.events(SilenceEnded) == [SilenceEnded("time")]
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))
    assert story.kiosk.session is not None
    assert broken(story) == set()


def test_an_adult_ends_them_earlier() -> None:
    story = silent()
    story.touch(AskAdult("menu"))
    story.pin()
    assert Act("own_use") not in shown(story)
    story.give(Act("own_use"))
    assert story.refusal == "silent"

    story.touch(Act("quiet_end"))

    assert story.events(SilenceEnded) == [SilenceEnded("a1")]
    assert Act("own_use") in shown(story)


def test_after_a_restart_their_time_begins_anew() -> None:
    story = silent(15)
    story.now = type(story.now)("boot2", 0, story.now.wall_us, story.now.quality)
    story.give(KioskBegan("drill-1", "test", "clean"))
    story.give(Still())

    story.wait(14 * 60)
    assert story.kiosk.care.silence is not None
    assert replay(story.record, EMPTY).care == story.kiosk.care

    story.wait(2 * 60)
    assert story.kiosk.care.silence is None


def test_a_turn_under_way_keeps_its_screen() -> None:
    story = lesson_open()
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))
    story.do_steps("adult_check")

    story.give(Act("quiet", "30"))
    story.touch(AskAdult("ok"))
    story.pin()

    assert story.kiosk.care.silence is None
    drill_one_hole(story)
    assert story.kiosk.session is not None and story.kiosk.session.done == 1


def test_an_adult_counts_own_holes_only_if_they_care_to() -> None:
    story = signed_in(TEACHER)
    story.touch(Act("own_use"))
    for _ in (1, 2, 3):
        story.touch(Act("own_hole"))
    assert any("3" in b.label for b in story.view.buttons)

    story.touch(Act("own_use_end"))
    story.give(Act("own_hole"))

    assert story.events(OwnHoleCounted) == [OwnHoleCounted("a1")] * 3
    assert len(story.events(OwnUseEnded)) == 1


def test_the_judge_finds_a_turn_that_begins_in_silent_hours() -> None:
    story = silent()
    asked = next(e for e in story.record if isinstance(e.event, SilenceAsked))
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("quiet_end"))
    story.touch(LeavePage())
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))
    assert broken(story) == set()

    story.record.insert(len(story.record) - 1, asked)

    assert "in_a_lesson" in broken(story)
