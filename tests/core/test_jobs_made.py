"""A teacher makes a job at the screen: the sums propose, the group has it, pilots come first."""

from __future__ import annotations

import pytest

from kiosk.core.events import CheckAsked, JobDropped, JobHoleAdded, JobMade
from kiosk.core.inputs import Act, AskAdult, Choose, LeavePage, PickJob, PickPupil
from kiosk.core.kiosk import EMPTY, replay
from kiosk.core.kiosk.fitted import fitted
from kiosk.core.kiosk.making import Making, answers, is_known, sizes_for
from tests.core.adults_story import signed_in
from tests.core.care_story import broken, shown
from tests.core.story import TEACHER, Story, drill_one_hole, shop

STEEL = "8b mild_steel bar 6000 40000 120000"
PINE = "8b pine block 45000 60000 120000"


def made(piece: str = STEEL, *holes: str) -> Story:
    """A teacher has answered every question, touch by touch, up to what the sums propose."""
    story = signed_in(TEACHER)
    story.touch(Act("jobs_made"))
    story.touch(Act("make"))
    said = ""
    for at, hole in enumerate((piece, *holes)):
        if at > 1:
            story.touch(Act("make", f"{said} +"))
        for word in hole.split():
            said = f"{said} {word}".strip()
            story.touch(Act("make", said))
    return story


def kept(piece: str = STEEL, *holes: str) -> Story:
    story = made(piece, *holes)
    story.touch(Act("make_keep", story.kiosk.desk.about))
    return story


def test_the_sums_propose_bit_and_holding() -> None:
    story = made(STEEL, "twist:8000 0 2")

    lines = story.view.lines
    assert lines[0] == "2 holes, 8\u00a0mm, right through, mild steel: twist bit"
    assert lines[-1] == "Held with: vice"


def test_over_8_mm_in_metal_a_pilot_comes_first_as_a_hole_of_its_own() -> None:
    story = kept(STEEL, "twist:12000 0 1")

    pilot, hole = story.events(JobHoleAdded)
    assert isinstance(pilot, JobHoleAdded) and isinstance(hole, JobHoleAdded)
    assert (pilot.hole, pilot.um, hole.um) == ("pilot_1", 3000, 12000)
    assert 0.18 * 12 <= pilot.um / 1000 <= 12 / 3  # Walker, Modern Metalworking; chisel edge


def test_a_pilot_and_its_hole_are_two_set_ups_each_with_its_own_check() -> None:
    story = kept(STEEL, "twist:12000 0 1")
    story.give(LeavePage())
    opened(story, "made_1")
    for hole in (0, 1):
        story.touch(PickPupil(21))
        story.touch(PickJob("made_1", hole))
        story.do_steps("adult_check")
        story.touch(AskAdult("ok"))
        story.pin()
        drill_one_hole(story)
        story.do_steps("finished")
        story.give(LeavePage())

    assert len(story.events(CheckAsked)) == 2
    assert broken(story) == set()


def opened(story: Story, job: str) -> None:
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("open"))
    story.touch(Act("pre_use_right"))
    story.touch(Choose("group", "8b"))
    story.touch(Choose("jobs", job))
    story.touch(Act("jobs_done"))
    story.touch(Choose("length", "60"))


def test_it_is_recorded_with_who_and_stands_after_a_replay() -> None:
    story = kept(PINE, "lip_and_spur:10000 30000 4", "forstner:25000 12000 1")

    assert story.events(JobMade) == [
        JobMade("made_1", "8b", "pine", "block", 45000, 60000, 120000, "a1")
    ]
    job = fitted(story.shop, story.kiosk).content.job("made_1")
    assert job is not None and [h.count for h in job.holes] == [4, 1]
    assert replay(story.record, EMPTY).made == story.kiosk.made
    assert broken(story) == set()


def test_it_is_for_its_group_alone() -> None:
    story = kept(STEEL, "twist:8000 0 2")

    assert story.kiosk.made.is_for("made_1", "8b")
    assert not story.kiosk.made.is_for("made_1", "9a")
    assert story.kiosk.made.is_for("hook_bar", "9a")


def test_a_job_that_is_taken_away_is_offered_no_more() -> None:
    story = kept(STEEL, "twist:8000 0 2")
    story.touch(Act("job_made", "made_1"))

    story.touch(Act("job_drop", "made_1"))

    assert fitted(story.shop, story.kiosk).content.job("made_1") is None
    assert story.events(JobDropped) == [JobDropped("made_1", "a1")]


def test_only_what_fits_is_offered() -> None:
    sizes = sizes_for(shop(), Making.of(STEEL))

    assert ("twist", 8000) in sizes and ("twist", 13000) in sizes
    assert not any(um > 13000 and bit == "twist" for bit, um in sizes)  # the chuck takes 13 mm
    assert not any(bit in ("forstner", "lip_and_spur", "plastics") for bit, _ in sizes)


def test_a_depth_leaves_a_floor() -> None:
    deep = answers(shop(), Making.of(f"{STEEL} twist:8000"))

    assert deep[0] == "0"
    assert all(int(d) < 6000 for d in deep)


def test_a_round_bar_is_not_asked_twice_how_thick_it_is() -> None:
    making = Making.of("8b mild_steel round_bar 20000")

    assert making.said[-2:] == ("20000", "20000")


@pytest.mark.parametrize(
    "about",
    [
        "nobody",
        "8b unobtainium",
        "8b mild_steel cube",
        "8b mild_steel bar 6001",
        f"{STEEL} forstner:25000",
        f"{STEEL} twist:8000 9000",
        f"{STEEL} twist:8000 0 7",
    ],
)
def test_an_answer_that_was_not_offered_leads_nowhere(about: str) -> None:
    story = made(STEEL, "twist:8000 0 2")
    before = story.kiosk.desk

    story.give(Act("make", about))

    assert story.kiosk.desk == before
    assert not is_known(story.shop, Making.of(about))


def test_what_is_kept_is_what_was_shown() -> None:
    story = made(STEEL, "twist:8000 0 2")

    story.give(Act("make_keep", f"{STEEL} twist:8000 0 3"))

    assert story.events(JobMade) == []
    assert Act("make_keep", f"{STEEL} twist:8000 0 2") in shown(story)
