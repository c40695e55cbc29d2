"""An open lesson made longer, and tighter than the school asks for."""

from __future__ import annotations

from kiosk.core.events import CheckAsked, Entry, LessonLengthened, LessonTightened, SpellStarted
from kiosk.core.inputs import Act, AskAdult, LeavePage, PickJob, PickPupil
from kiosk.core.kiosk import EMPTY, replay
from kiosk.core.rules import Judge, Past
from kiosk.core.walk.grounds import house_of
from tests.core.story import Story, drill_one_hole, lesson_open


def signed_in(story: Story) -> Story:
    story.touch(AskAdult("menu"))
    story.pin()
    return story


def tightened(what: str, jobs: tuple[str, ...] = ("hook_bar", "pen_block")) -> Story:
    story = signed_in(lesson_open(jobs))
    story.touch(Act("tighter"))
    story.touch(Act("tighten", what))
    story.touch(Act("menu"))
    story.touch(LeavePage())
    return story


def broken(story: Story) -> set[str]:
    """The rules that the story's record breaks."""
    judge, past, found = Judge(house_of(story.shop)), Past(), set()
    for entry in story.record:
        past, rules = judge.judge(past, Entry(1, entry.at, entry.event, entry.plan), None)
        found |= {b.rule.id for b in rules}
    return found


def test_a_lesson_made_longer_ends_so_much_later() -> None:
    story = signed_in(lesson_open())
    story.touch(Act("longer"))
    story.touch(Act("longer_by", "10"))
    story.touch(LeavePage())

    story.wait(65 * 60)
    assert story.kiosk.lesson is not None
    story.wait(6 * 60)

    assert story.kiosk.lesson is None
    assert story.events(LessonLengthened) == [LessonLengthened("a1", 600)]


def test_an_adult_who_asks_for_it_looks_at_every_hole_of_a_signed_off_pupil() -> None:
    story = tightened("every_hole")
    story.touch(PickPupil(21))
    story.touch(PickJob("hook_bar", 0))
    for _ in (1, 2):
        story.do_steps("adult_check")
        story.touch(AskAdult("ok"))
        story.pin()
        drill_one_hole(story)

    assert len(story.events(CheckAsked)) == 2
    assert broken(story) == set()


def test_without_spells_a_pin_that_asks_for_one_gives_the_ok_alone() -> None:
    story = tightened("no_spell")
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))

    story.pin(stay=1)

    assert story.view.screen == "drilling"
    assert story.events(SpellStarted) == []


def test_nobody_begins_once_the_adult_lets_nobody_begin_any_more() -> None:
    story = tightened("no_more")

    story.give(PickPupil(21))

    assert story.refusal == "no_lesson"
    assert story.view.title == "Nobody begins any more"


def test_what_was_asked_for_stands_after_a_replay_and_ends_with_the_lesson() -> None:
    story = tightened("every_hole")
    again = replay(story.record, EMPTY)
    signed_in(story)
    story.touch(Act("close"))

    assert again.lesson is not None and again.lesson.tighter == ("every_hole",)
    assert story.events(LessonTightened) == [LessonTightened("a1", "every_hole")]
    assert story.kiosk.lesson is None
