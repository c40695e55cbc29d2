"""A pilot goes first: its hole can't be drilled in work that has none, whoever touches what."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import (
    DrillingShown,
    Entry,
    Event,
    HoleDrilled,
    PilotsDrilled,
    SessionStarted,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    KioskBegan,
    Leave,
    LeavePage,
    OpenPage,
    PickJob,
    PickPupil,
    Still,
)
from kiosk.core.kiosk import EMPTY, Kiosk, replay
from kiosk.core.rules import Judge, Past
from kiosk.core.walk.grounds import house_of
from kiosk.store.carrying import pupil_events
from tests.core.care_story import at_the_menu, broken, shown
from tests.core.story import TEACHER, Story, drill_one_hole, lesson_open, shop
from tests.core.test_jobs_made import STEEL, kept, opened

PILOT, HOLE = 0, 1


def piloted_job(holes: str = "twist:12000 0 1") -> Story:
    """A lesson with a job made at the screen: a pilot of 3 mm, then its hole of 12 mm."""
    story = kept(STEEL, holes)
    story.give(LeavePage())
    opened(story, "made_1")
    return story


def turn(story: Story, hole: int, holes: int = 1, number: int = 21) -> None:
    """A pupil drills so many holes of a kind and leaves the drill."""
    story.touch(PickPupil(number))
    story.touch(PickJob("made_1", hole))
    for _ in range(holes):
        story.do_steps("adult_check")
        story.touch(AskAdult("ok"))
        story.pin()
        drill_one_hole(story)
    if story.kiosk.session and story.kiosk.session.step.part == "clear":
        story.do_steps("finished")
    else:
        story.give(Leave())
    story.give(LeavePage())


def test_a_hole_that_this_drill_can_not_make_says_so_before_it_is_touched() -> None:
    story = lesson_open(("hook_bar", "pen_block"))
    story.shop = shop("drill-3")  # it has no depth stop

    story.touch(PickPupil(14))

    block = next(b for b in story.view.choices if "Pen block" in b.label)
    assert (block.live, "This drill can't make it." in block.label) == (False, True)
    assert all(b.live for b in story.view.choices if "Hook bar" in b.label)


def test_the_hole_waits_until_its_pilot_is_drilled() -> None:
    story = piloted_job()
    story.touch(PickPupil(21))

    assert PickJob("made_1", HOLE) not in shown(story)
    assert any("First drill its pilot." in b.label for b in story.view.choices)
    story.give(PickJob("made_1", HOLE))
    assert story.refusal == "pilot_first"
    assert story.kiosk.session is None

    story.give(LeavePage())
    turn(story, PILOT)
    turn(story, HOLE)
    assert len(story.events(HoleDrilled)) == 2
    assert story.kiosk.pupils.piloted == ()
    assert broken(story) == set()


def test_another_pupils_pilot_is_in_another_piece_of_work() -> None:
    story = piloted_job()
    turn(story, PILOT, number=14)

    story.touch(PickPupil(21))
    story.give(PickJob("made_1", HOLE))

    assert story.refusal == "pilot_first"


def test_only_as_many_are_drilled_as_have_their_pilot() -> None:
    story = piloted_job("twist:12000 0 2")
    turn(story, PILOT, holes=1)

    story.touch(PickPupil(21))
    story.touch(PickJob("made_1", HOLE))

    assert story.kiosk.session is not None
    assert story.kiosk.session.plan.holes == 1


def test_a_second_piece_wants_a_second_pilot() -> None:
    story = piloted_job()
    turn(story, PILOT)
    turn(story, HOLE)

    story.touch(PickPupil(21))
    story.give(PickJob("made_1", HOLE))

    assert story.refusal == "pilot_first"


def test_a_pilot_counts_in_the_next_lesson_after_a_restart_and_in_a_new_record() -> None:
    story = piloted_job()
    turn(story, PILOT)
    story.give(KioskBegan("drill-1", "test", "cut"))
    story.reads("isolator", "on")
    story.reads("starter", "off")
    story.touch(Still())
    story.touch(AskAdult("confirm"))
    story.pin()

    kept_again = [e for e in pupil_events(story.kiosk) if isinstance(e, PilotsDrilled)]
    assert kept_again == [PilotsDrilled("p21", "made_1", HOLE, 1, "record")]
    assert replay(story.record, EMPTY).pupils == story.kiosk.pupils
    anew = replay((Entry(1, story.now, kept_again[0]),), Kiosk())
    assert anew.pupils.with_pilot("p21", "made_1", HOLE) == 1


def test_nobody_lines_up_for_a_hole_with_no_pilot() -> None:
    story = piloted_job()
    story.touch(OpenPage("line"))
    story.touch(Choose("line", "21"))

    assert Choose("line_job", f"made_1 {HOLE}") not in shown(story)
    story.give(Choose("line_job", f"made_1 {HOLE}"))
    assert story.refusal == "pilot_first"


def test_pilots_from_the_other_drill_count_once_an_adult_has_seen_them() -> None:
    story = piloted_job("twist:12000 0 2")
    at_the_menu(story, TEACHER)
    story.touch(Act("pilots"))
    story.touch(Act("pilots", f"made_1 {HOLE}"))
    story.touch(Act("pilots_seen", f"made_1 {HOLE} 21"))

    assert story.events(PilotsDrilled) == [PilotsDrilled("p21", "made_1", HOLE, 2, "a1")]
    story.give(LeavePage())
    turn(story, HOLE, holes=1)
    assert broken(story) == set()


def test_without_a_job_that_has_one_the_menu_says_nothing_of_pilots() -> None:
    story = kept(STEEL, "twist:8000 0 1")
    story.give(LeavePage())
    opened(story, "made_1")
    at_the_menu(story, TEACHER)

    assert Act("pilots") not in shown(story)
    story.give(Act("pilots", "made_1 0"))
    story.give(Act("pilots_seen", "made_1 0 21"))
    assert not story.events(PilotsDrilled)


@pytest.mark.parametrize("left_out", [HoleDrilled, PilotsDrilled])
def test_the_judge_counts_pilots_by_itself(left_out: type[Event]) -> None:
    """Given the record without the pilot's hole, the judge objects; without its own count, not."""
    story = piloted_job()
    turn(story, PILOT)
    turn(story, HOLE)
    first = next(e for e in story.record if isinstance(e.event, left_out))
    judge, past, found = Judge(house_of(story.shop)), Past(), set()
    for entry in (e for e in story.record if e is not first):
        past, rules = judge.judge(past, entry, None)
        found |= {b.rule.id for b in rules}

    assert ("pilot_first" in found) == (left_out is HoleDrilled)
    assert all(e.event.hole >= 1 for e in story.record if isinstance(e.event, DrillingShown))


def test_a_job_of_a_file_names_its_pilot() -> None:
    story = piloted_job()
    made = story.kiosk.made.find("made_1")
    assert made is not None
    job = replace(made.job, id="plate")

    assert job.piloted_by(PILOT) == (HOLE,)
    assert job.piloted_by(HOLE) == ()
    assert story.events(SessionStarted) == []
