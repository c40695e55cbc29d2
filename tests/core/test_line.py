"""The line at the drill: lining up, getting ready there, and whose turn it is."""

from __future__ import annotations

from random import Random

import pytest

from kiosk.core.events import (
    Entry,
    Event,
    LeftLine,
    LinedUp,
    PassedOver,
    ReadyInLine,
    SessionStarted,
    StepDone,
)
from kiosk.core.inputs import (
    AskAdult,
    Choose,
    DeadlinePassed,
    KioskBegan,
    LeavePage,
    OpenPage,
    PickPupil,
    SeenRight,
    Still,
)
from kiosk.core.kiosk import advance, decide, next_deadline
from kiosk.core.model import Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.rules import Judge, Past
from kiosk.core.walk.grounds import house_of
from tests.core.story import CONTENT, Story, drill_one_hole, lesson_open, shop


def lines_up(story: Story, number: int, ready: bool = True) -> None:
    """A pupil touches the number, and says what was seen to."""
    story.touch(OpenPage("line"))
    story.touch(Choose("line", str(number)))
    if story.view.screen == "job":
        story.touch(Choose("line_job", "key_tag 0"))
    story.touch(Choose("line_ready", str(number)) if ready else LeavePage())


def clearing_up() -> Story:
    """Number 14 has drilled the key tag's hole and clears up."""
    story = lesson_open(("key_tag",))
    story.touch(PickPupil(14))
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin()
    drill_one_hole(story)
    return story


def test_a_pupil_lines_up_while_the_one_before_clears_up_and_begins_with_one_touch() -> None:
    story = clearing_up()
    lines_up(story, 21)
    story.do_steps("finished")

    story.touch(PickPupil(21))

    assert story.kiosk.session is not None and story.kiosk.session.pupil == "p21"
    assert story.events(StepDone)[-1] == StepDone("ready_again", "line")
    assert story.view.screen == "already_set"


def test_who_has_had_a_turn_stands_behind_who_has_not() -> None:
    story = clearing_up()
    story.do_steps("finished")
    story.touch(LeavePage())

    lines_up(story, 14)
    lines_up(story, 9)
    lines_up(story, 21)

    assert [w.pupil for w in story.kiosk.lesson.line.waiting] == ["p9", "p21", "p14"]
    assert story.view.title == "Next: number 9"


def test_nobody_begins_before_the_next_one_in_line() -> None:
    story = lesson_open(("key_tag",))
    lines_up(story, 9)

    story.give(PickPupil(21))

    assert story.refusal == "in_line"
    assert story.kiosk.session is None


def test_who_is_called_and_not_there_lets_one_other_go_first() -> None:
    story = lesson_open(("key_tag",))
    for number in (9, 21, 5):
        lines_up(story, number)

    story.touch(Choose("line_pass", "9"))

    assert story.events(PassedOver) == [PassedOver("p9")]
    assert [w.pupil for w in story.kiosk.lesson.line.waiting] == ["p21", "p9", "p5"]


def test_what_was_seen_to_in_line_is_done_again_after_ten_minutes() -> None:
    story = lesson_open(("key_tag",))
    lines_up(story, 21)
    story.wait(601)

    story.touch(PickPupil(21))

    assert story.kiosk.session.step.part == "ready"
    assert not [e for e in story.events(StepDone) if e.by == "line"]


def test_the_line_is_shut_at_the_check_and_while_the_drill_may_be_turning() -> None:
    story = lesson_open(("key_tag",))
    story.touch(PickPupil(14))
    story.do_steps("adult_check")

    story.give(OpenPage("line"))

    assert story.view.screen == "adult_check"
    assert OpenPage("line") not in [b.touch for b in story.buttons()]


def test_a_restart_keeps_the_line_but_not_what_was_seen_to() -> None:
    story = lesson_open(("key_tag",))
    lines_up(story, 21)
    story.now = story.now.__class__("boot2", story.now.us, story.now.wall_us, 1)

    story.give(KioskBegan("drill-1", "test", "clean"))

    (waiting,) = story.kiosk.lesson.line.waiting
    assert waiting.pupil == "p21"
    assert waiting.ready is not None and story.now.since(waiting.ready) is None


def test_the_wait_is_told_by_how_long_the_last_turns_took() -> None:
    story = lesson_open(("key_tag",))
    lines_up(story, 9)
    lines_up(story, 21)
    story.touch(OpenPage("line"))

    story.touch(Choose("line", "21"))

    assert story.view.title == "Number 21: about 2 minutes to wait"


def test_a_pupil_leaves_the_line() -> None:
    story = lesson_open(("key_tag",))
    lines_up(story, 9)
    story.touch(OpenPage("line"))
    story.touch(Choose("line", "9"))

    story.touch(Choose("line_leave", "9"))

    assert story.events(LeftLine) == [LeftLine("p9")]
    assert story.view.screen == "idle"
    assert PickPupil(9) in [b.touch for b in story.buttons()]


def test_a_job_chosen_in_line_is_not_asked_for_again() -> None:
    story = lesson_open(("hook_bar", "key_tag"))
    lines_up(story, 21)

    story.touch(PickPupil(21))

    assert story.events(SessionStarted)[-1].job == "key_tag"


# --- the judge -----------------------------------------------------------------------------------


def judged(story: Story, events: tuple[Event, ...], past: Past) -> tuple[str, ...]:
    """The ids of the rules that these events break, one after the other."""
    judge, found = Judge(house_of(story.shop)), []
    job = CONTENT.job("key_tag")
    assert job is not None
    plan = compile_plan(CONTENT, story.shop.machine, job, 0, Level.SIGNED_OFF)
    assert isinstance(plan, Plan)
    for event in events:
        past, broken = judge.judge(past, Entry(1, story.now, event, plan), None)
        found += [b.rule.id for b in broken]
    return tuple(found)


def test_the_judge_sees_a_step_that_nobody_did_in_line() -> None:
    story = Story(shop())
    start = SessionStarted("p21", "signed_off", "key_tag", 0, "x", "fresh", 0, "sensed")
    said = (LinedUp("p21", "key_tag", 0), ReadyInLine("p21"), start)

    good = judged(story, (*said, StepDone("eyes", "line")), Past())
    unsaid = judged(story, (start, StepDone("eyes", "line")), Past())
    held = judged(story, (*said, StepDone("push", "line")), Past())

    assert "ready_in_line" not in good
    assert "ready_in_line" in unsaid
    assert "ready_in_line" in held


@pytest.mark.parametrize("seed", range(4))
def test_no_order_of_touches_in_and_out_of_the_line_breaks_a_rule(seed: int) -> None:
    chance, story = Random(seed), lesson_open(("key_tag", "hook_bar"))
    judge, past = Judge(house_of(story.shop)), Past()
    for entry in story.record:
        past, _ = judge.judge(past, entry, None)
    past, _ = judge.rested(past)

    for _ in range(400):
        kiosk, given = story.kiosk, _something(story, chance)
        decided = decide(story.shop, kiosk, given, story.now)
        for event in decided.events:
            here = kiosk.session.step if kiosk.session and not kiosk.session.halt else None
            entry = Entry(int(event.recorded), story.now, event, decided.plan)
            past, broken = judge.judge(past, entry, here)
            kiosk = advance(kiosk, entry)
            assert not broken, (broken[0].rule.id, broken[0].found, given)
        past, _ = judge.rested(past)
        story.kiosk = kiosk
        story._at(story.now.us + chance.choice((1, 2, 90, 400)) * 1_000_000)


def _something(story: Story, chance: Random) -> object:
    """A touch that is shown, one about the line that may not be, or a deadline."""
    due = next_deadline(story.shop, story.kiosk, story.now)
    if due and due.us <= story.now.us:
        return DeadlinePassed(due.kind)
    numbers = ("5", "9", "14", "21", "99")
    line = [Choose(f"line{what}", n) for n in numbers for what in ("", "_ready", "_pass")]
    shown = [b.touch for b in story.buttons() if isinstance(b.touch, _PUPILS)]
    return chance.choice([*shown, *shown, *shown, OpenPage("line"), *chance.sample(line, 2)])


_PUPILS = (Choose, OpenPage, PickPupil, SeenRight, Still, LeavePage)
