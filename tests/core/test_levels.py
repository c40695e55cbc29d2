"""Training levels: granted at the machine, for a class of bits, until a day, lapsing unused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import BesideSet, LevelGranted, LevelKept, SessionStarted
from kiosk.core.inputs import Act, AskAdult, LevelsRead, PickJob, PickPupil
from kiosk.core.kiosk.levels import bit_classes, level_now
from kiosk.core.kiosk.pupils import PLAIN
from kiosk.core.model import Group, Level, Policy, Pupil, Roster
from tests.core.adults_story import pass_days
from tests.core.story import CONTENT, TEACHER, Story, drill_one_hole, lesson_open

RING = next(b.id for b in CONTENT.bits if b.cuts == "ring")
SHOWN_5 = "p5"


def signed_in_lesson(**people: object) -> Story:
    story = lesson_open()
    policy = replace(story.shop.content.people, **people)  # type: ignore[arg-type]
    story.shop = replace(story.shop, content=replace(story.shop.content, people=policy))
    story.touch(AskAdult("menu"))
    story.pin(TEACHER)
    return story


def grant(story: Story, ref: str, level: str, bits: str = PLAIN) -> None:
    """Through every question, by what is shown."""
    if story.kiosk.desk.page != "level":
        story.touch(Act("level"))
    for answer in (ref, bits, level, "hole"):
        story.touch(Act("level", f"{story.kiosk.desk.about} {answer}"))


def now(story: Story, ref: str, bit: str = "twist") -> Level:
    pupil = story.shop.roster.pupil(ref)
    assert pupil is not None
    return level_now(story.shop, story.kiosk, pupil, bit, story.now)


def test_a_teacher_grants_a_level_and_says_what_was_watched() -> None:
    story = signed_in_lesson()

    grant(story, SHOWN_5, "supervised")

    until = story.now.day + story.shop.content.people.lasts
    granted = LevelGranted(SHOWN_5, "supervised", "drill-1", PLAIN, "hole", until, TEACHER.ref)
    assert story.events(LevelGranted) == [granted]
    assert now(story, SHOWN_5) is Level.SUPERVISED


def test_every_answer_on_the_pages_of_a_level_begins_with_a_capital() -> None:
    story = signed_in_lesson()
    story.touch(Act("level"))

    for answer in (SHOWN_5, RING, "supervised", "hole"):
        labels = [b.label for b in story.view.choices]
        assert [label for label in labels if not label[0].isdigit() and label[0].islower()] == []
        story.touch(Act("level", f"{story.kiosk.desk.about} {answer}"))

    assert story.events(LevelGranted)


def test_the_plan_goes_by_the_level_that_stands() -> None:
    story = signed_in_lesson()
    grant(story, SHOWN_5, "supervised")
    story.wait(61)

    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))

    (started,) = story.events(SessionStarted)
    assert isinstance(started, SessionStarted) and started.level == "supervised"


def test_a_level_for_plain_bits_is_none_for_hole_saws() -> None:
    story = signed_in_lesson()

    grant(story, SHOWN_5, "signed_off")

    assert now(story, SHOWN_5, RING) is Level.ADULT_BESIDE
    grant(story, SHOWN_5, "shown", RING)
    assert now(story, SHOWN_5, RING) is Level.SHOWN
    assert now(story, SHOWN_5) is Level.SIGNED_OFF


def test_a_level_may_be_lowered_below_the_rosters() -> None:
    story = signed_in_lesson()

    grant(story, "p21", "adult_beside")

    assert now(story, "p21") is Level.ADULT_BESIDE


@pytest.mark.parametrize(("days", "left"), [(120, Level.SUPERVISED), (121, Level.ADULT_BESIDE)])
def test_a_level_lapses_after_its_days_without_a_hole(days: int, left: Level) -> None:
    story = signed_in_lesson(lapses=120)
    grant(story, SHOWN_5, "supervised")

    pass_days(story, days)

    assert now(story, SHOWN_5) is left


def test_a_hole_keeps_a_level_from_lapsing_but_not_from_ending() -> None:
    story = signed_in_lesson(lapses=10, lasts=15)
    grant(story, SHOWN_5, "supervised")
    story.wait(61)
    pass_days(story, 9)
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin(TEACHER)
    drill_one_hole(story)

    pass_days(story, 6)
    assert now(story, SHOWN_5) is Level.SUPERVISED
    pass_days(story, 1)
    assert now(story, SHOWN_5) is Level.ADULT_BESIDE


def test_a_level_counts_on_a_drill_that_is_alike_and_on_no_other() -> None:
    story = signed_in_lesson()
    story.give(LevelsRead(()))
    kept = LevelKept(
        SHOWN_5, "signed_off", "bench_drills", PLAIN, story.now.day, 0, story.now.day, "test"
    )
    story.kiosk = replace(story.kiosk, pupils=_advanced(story, kept))

    assert now(story, SHOWN_5) is Level.SHOWN
    machine = replace(story.shop.machine, alike="bench_drills")
    story.shop = replace(story.shop, machine=machine)
    assert now(story, SHOWN_5) is Level.SIGNED_OFF


def _advanced(story: Story, event: LevelKept):  # type: ignore[no-untyped-def]
    from kiosk.core.events import Entry
    from kiosk.core.kiosk.pupils import advance_pupils

    return advance_pupils(story.kiosk.pupils, Entry(1, story.now, event))


def test_an_adult_always_beside_stands_over_every_level_and_gives_no_reason() -> None:
    story = signed_in_lesson()
    story.touch(Act("level"))
    story.touch(Act("level", "8b p21"))

    story.touch(Act("level_beside", "8b p21"))

    assert story.events(BesideSet) == [BesideSet("p21", 1, TEACHER.ref)]
    assert now(story, "p21") is Level.ADULT_BESIDE
    story.touch(Act("level", "8b p21"))
    story.touch(Act("level_beside", "8b p21"))
    assert now(story, "p21") is Level.SIGNED_OFF


def test_a_visitor_has_an_adult_beside_and_no_level_is_raised() -> None:
    story = signed_in_lesson()
    guest = Pupil("p40", 40, Level.SIGNED_OFF, visitor=True)
    roster = Roster((Group("8b", "Year 8 blue", (guest,)),), story.shop.roster.adults)
    story.shop = replace(story.shop, roster=roster)
    story.give(LevelsRead((("p40", "signed_off"),)))

    events = story.give(Act("level", f"8b p40 {PLAIN} signed_off hole"))

    assert events == () and story.refusal == "visitor"
    assert now(story, "p40") is Level.ADULT_BESIDE


@pytest.mark.parametrize(
    "about",
    ["8b p5 plain supervised nothing", "8b p5 plain king hole", "8b nobody", "9z", "8b p5 x"],
)
def test_an_answer_that_was_not_asked_for_leads_to_nothing(about: str) -> None:
    story = signed_in_lesson()

    assert story.give(Act("level", about)) == ()


def test_hole_saws_are_the_only_bits_apart() -> None:
    story = lesson_open()

    assert set(bit_classes(story.shop)) == {PLAIN, RING}


def test_the_usual_days_are_a_year_and_a_term() -> None:
    assert (Policy().lasts, Policy().lapses) == (366, 120)
