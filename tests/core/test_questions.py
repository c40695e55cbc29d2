"""*Questions before you drill*: mixed, with the reason after each, and never a score."""

from __future__ import annotations

from dataclasses import fields, replace

from kiosk.core.events import QuestionsAnswered, SessionStarted
from kiosk.core.inputs import Act, AskAdult, Choose, LeavePage, OpenPage, PickJob, PickPupil
from kiosk.core.kiosk.levels import level_now
from kiosk.core.model import Level
from tests.core.story import TEACHER, Story, lesson_open


def asking(jobs: tuple[str, ...] = ("hook_bar", "pen_block"), first: bool = True) -> Story:
    story = lesson_open(jobs)
    people = replace(story.shop.content.people, questions_first=first)
    story.shop = replace(story.shop, content=replace(story.shop.content, people=people))
    return story


def answer(story: Story, right: bool) -> str:
    """Answer the question shown; which one it was."""
    asked = story.kiosk.desk.picked("left")[0]
    shown = [b.touch for b in story.buttons() if isinstance(b.touch, Choose)]
    assert {t.value for t in shown} == {"right", "wrong_1", "wrong_2"}
    story.touch(Choose("answer", "right" if right else "wrong_1"))
    return asked


def go_through(story: Story) -> int:
    """Answer all that is asked, right; how many it was."""
    for count in range(1, 20):
        answer(story, True)
        story.touch(Choose("go_on", ""))
        if story.view.screen == "job":
            return count
    raise AssertionError("the questions never end")


def test_all_are_asked_and_then_the_pupil_is_back_at_the_jobs() -> None:
    story = asking()
    story.touch(PickPupil(14))
    story.touch(OpenPage("questions", "14"))

    count = go_through(story)

    assert count == len(story.shop.content.people.questions)
    assert story.events(QuestionsAnswered) == [QuestionsAnswered("p14")]
    assert OpenPage("questions", "14") not in [b.touch for b in story.buttons()]


def test_a_wrong_answer_tells_the_right_one_and_comes_again_after_the_others() -> None:
    story = asking()
    story.touch(PickPupil(14))
    story.touch(OpenPage("questions", "14"))

    first = answer(story, False)

    assert story.view.title == "Not right"
    question = f"question.{first}"
    assert story.view.lines[0] == story_says(f"{question}.right")
    assert story.view.lines[1:] == tuple(story_says(f"{question}.why").strip().split("\n"))
    assert story.kiosk.desk.picked("left")[-1] == first


def story_says(key: str) -> str:
    from tests.core.story import WORDS

    return WORDS.say(key)


def test_until_they_are_answered_no_level_above_shown_stands() -> None:
    story = asking()
    pupil = story.shop.roster.pupil("p21")
    assert pupil is not None
    assert level_now(story.shop, story.kiosk, pupil, "twist", story.now) is Level.SHOWN
    story.touch(PickPupil(21))
    story.touch(OpenPage("questions", "21"))

    go_through(story)

    assert level_now(story.shop, story.kiosk, pupil, "twist", story.now) is Level.SIGNED_OFF


def test_a_lesson_with_one_job_shows_the_questions_before_it_starts() -> None:
    story = asking(("pen_block",))
    jobs = tuple(replace(j, holes=j.holes[:1]) for j in story.shop.content.jobs)
    story.shop = replace(story.shop, content=replace(story.shop.content, jobs=jobs))

    story.touch(PickPupil(14))

    assert story.view.screen == "job"
    assert OpenPage("questions", "14") in [b.touch for b in story.buttons()]
    story.touch(PickJob("pen_block", 0))
    (started,) = story.events(SessionStarted)
    assert isinstance(started, SessionStarted) and started.level == "shown"


def test_who_leaves_half_way_has_answered_nothing() -> None:
    story = asking()
    story.touch(PickPupil(14))
    story.touch(OpenPage("questions", "14"))
    answer(story, True)
    story.touch(Choose("go_on", ""))

    story.touch(LeavePage())

    assert not story.events(QuestionsAnswered)
    assert story.give(Choose("go_on", "")) == ()


def test_going_on_without_an_answer_leads_to_nothing() -> None:
    story = asking()
    story.touch(PickPupil(14))
    story.touch(OpenPage("questions", "14"))

    assert story.give(Choose("go_on", "")) == ()
    assert story.give(Choose("answer", "nothing")) == ()


def test_a_teacher_cant_grant_supervised_before_the_questions() -> None:
    story = asking()
    story.touch(AskAdult("menu"))
    story.pin(TEACHER)

    assert story.give(Act("level", "8b p5 plain supervised hole")) == ()
    assert story.refusal == "questions_first"
    assert story.give(Act("level", "8b p5 plain shown hole"))


def test_the_order_differs_from_one_pupil_to_the_next() -> None:
    orders = set()
    for wait in range(6):
        story = asking()
        story.wait(wait + 0.123)
        story.touch(PickPupil(14))
        story.touch(OpenPage("questions", "14"))
        orders.add(story.kiosk.desk.picked("left"))

    assert len(orders) > 1


def test_the_record_holds_no_answer_and_no_count() -> None:
    assert [f.name for f in fields(QuestionsAnswered)] == ["pupil"]
