"""Out of use and back: who may return the drill goes by the kind of fault."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import (
    DeputyNamed,
    ReturnedToUse,
    TakenOutOfUse,
)
from kiosk.core.inputs import Act, AdultEnded
from kiosk.core.kiosk.returning import KINDS
from tests.core.adults_story import pass_days, signed_in
from tests.core.care_story import at_the_menu, broken, out_of_use, shown
from tests.core.story import TEACHER, TECHNICIAN, WORDS


@pytest.mark.parametrize("why", ["guard", "stop", "electric", "fault"])
def test_what_guards_hands_or_stops_the_drill_waits_for_a_technician(why: str) -> None:
    story = out_of_use(why, deputy=TEACHER.ref)
    at_the_menu(story, TEACHER)

    story.give(Act("return"))

    assert story.refusal == "technician_only"
    assert Act("return") not in shown(story)
    assert story.kiosk.machine.out_of_use == why


@pytest.mark.parametrize("why", ["belt", "chuck", "table", "light", "extraction"])
def test_after_a_small_fault_the_deputy_returns_the_drill(why: str) -> None:
    story = out_of_use(why, deputy=TEACHER.ref)
    assert any("Ms Invented" in line for line in story.view.lines)
    at_the_menu(story, TEACHER)

    story.touch(Act("return"))

    assert story.events(ReturnedToUse) == [ReturnedToUse("a1")]
    assert story.events(DeputyNamed) == [DeputyNamed("a1", "a2")]
    assert broken(story) == set()


def test_with_no_deputy_a_small_fault_waits_for_a_technician() -> None:
    story = out_of_use("belt")
    at_the_menu(story, TEACHER)

    story.give(Act("return"))

    assert story.refusal == "technician_only"


def test_a_deputy_who_is_revoked_is_none_any_more() -> None:
    story = out_of_use("belt", deputy=TEACHER.ref)

    story.give(AdultEnded(TEACHER.ref, "test"))

    assert story.kiosk.care.deputy == ""


@pytest.mark.parametrize("why", ["cleaning", "lesson"])
def test_where_nothing_was_wrong_a_teacher_returns_it(why: str) -> None:
    story = out_of_use(why)
    at_the_menu(story, TEACHER)

    story.touch(Act("return"))

    assert story.kiosk.machine.out_of_use == ""
    assert broken(story) == set()


def test_whoever_has_locked_it_off_returns_it_and_no_other_teacher() -> None:
    story = out_of_use("locked_off", by=TEACHER)
    assert any("Ms Invented" in line for line in story.view.lines)
    at_the_menu(story, TEACHER)
    story.touch(Act("return"))
    assert story.kiosk.machine.out_of_use == ""

    other = out_of_use("locked_off", by=TECHNICIAN)
    at_the_menu(other, TEACHER)

    assert Act("return") not in shown(other)


def test_the_judge_finds_a_return_by_the_wrong_adult() -> None:
    story = out_of_use("guard")
    wrong = replace(story.record[-1], event=ReturnedToUse(TEACHER.ref))
    story.record.append(wrong)

    assert "technician_returns" in broken(story)


def test_the_faults_so_far_are_told_with_their_days() -> None:
    story = out_of_use("belt")
    pass_days(story, 3)
    at_the_menu(story, TECHNICIAN)
    story.touch(Act("return"))
    at_the_menu(story, TECHNICIAN)
    story.touch(Act("care"))

    story.touch(Act("fault_log"))

    since = story.kiosk.care.faults[0].since
    assert story.kiosk.care.faults[0].until == since + 3
    assert story.view.lines[0].endswith("Belt or pulleys")


def test_no_other_word_takes_the_drill_out_of_use() -> None:
    story = signed_in()

    story.give(Act("out_why", "because"))

    assert story.events(TakenOutOfUse) == []


@pytest.mark.parametrize("why", KINDS)
def test_each_kind_of_fault_is_told_in_its_own_words(why: str) -> None:
    story = out_of_use(why)

    assert story.view.lines[0] == f"Why: {WORDS.say(f'out.{why}')}"
