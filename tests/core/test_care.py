"""The technician's corner: checks, bits, data, the kiosk itself."""

from __future__ import annotations

from datetime import date

import pytest

from kiosk.core.events import (
    BitsChanged,
    CheckDone,
    DatumSet,
    DownSaid,
    RestartAsked,
)
from kiosk.core.inputs import Act
from kiosk.core.kiosk import EMPTY, replay
from kiosk.core.kiosk.fitted import fitted
from kiosk.core.model import InstallationCheck
from kiosk.core.model.hazards import EPOCH, months_after
from tests.core.adults_story import pass_days, signed_in
from tests.core.care_story import corner, shown
from tests.core.story import TEACHER

# --- checks --------------------------------------------------------------------------------------


def test_the_extraction_test_is_due_again_after_14_months() -> None:
    story = corner()
    story.touch(Act("checks"))
    story.touch(Act("check", "extraction_tested"))
    story.touch(Act("checked", "extraction_tested right 30"))

    done = story.kiosk.care.check("extraction_tested")
    assert done is not None and done.day == story.now.day - 30
    due = InstallationCheck("x", "look", "14 months").due(done.day)
    assert f"Due {EPOCH.fromordinal(EPOCH.toordinal() + due)}" in str(story.view.choices)
    assert story.events(CheckDone) == [CheckDone("extraction_tested", "right", done.day, "a2")]


@pytest.mark.parametrize(
    ("start", "months", "due"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2024, 1, 31), 1, date(2024, 2, 29)),
        (date(2025, 11, 28), 14, date(2027, 1, 28)),
        (date(2026, 12, 15), 12, date(2027, 12, 15)),
    ],
)
def test_months_are_those_of_the_calendar(start: date, months: int, due: date) -> None:
    assert months_after((start - EPOCH).days, months) == (due - EPOCH).days


def test_a_check_that_is_over_comes_first_and_is_counted() -> None:
    story = corner()
    first = len(story.shop.content.assessment.installation)
    assert f"Checks due or over: {first}" in story.view.lines
    story.touch(Act("checks"))
    story.touch(Act("check", "rcd_tested"))
    story.touch(Act("checked", "rcd_tested right 0"))
    pass_days(story, 200)
    story.touch(Act("care"))
    story.touch(Act("checks"))

    assert "Over since" in next(b.label for b in story.view.choices if "rcd" in str(b.touch))


def test_what_is_not_right_is_recorded_and_the_drill_can_be_taken_out_of_use() -> None:
    story = corner()
    story.touch(Act("checks"))
    story.touch(Act("check", "wiring_tested"))

    story.touch(Act("checked", "wiring_tested wrong 0"))

    assert story.kiosk.desk.page == "out"
    story.touch(Act("out_why", "electric"))
    assert story.kiosk.machine.out_of_use == "electric"
    done = story.kiosk.care.check("wiring_tested")
    assert done is not None and done.found == "wrong"


# --- bits, data ----------------------------------------------------------------------------------


def test_bits_are_counted_and_a_blunt_one_lies_aside() -> None:
    story = corner()
    story.touch(Act("racks"))
    story.touch(Act("rack", "twist 8000"))
    for how in ("new", "new", "blunt", "lost", "sharpened", "sharpened"):
        story.touch(Act("bit_changed", f"twist 8000 {how}"))

    rack = story.kiosk.care.rack("twist", 8000)
    assert (rack.good, rack.blunt) == (2, 0)
    assert story.events(BitsChanged)[0] == BitsChanged("twist", 8000, "new", "a2")
    story.give(Act("bit_changed", "twist 8001 new"))
    assert len(story.kiosk.care.racks) == 1


def test_a_longer_run_down_counts_and_a_shorter_one_does_not() -> None:
    story = corner()
    story.touch(Act("data"))
    story.touch(Act("datum", "run_down"))
    story.touch(Act("set_datum", "run_down 10"))
    assert fitted(story.shop, story.kiosk).machine.run_down.s == 10

    story.touch(Act("datum", "run_down"))
    story.touch(Act("set_datum", "run_down 2"))

    assert fitted(story.shop, story.kiosk).machine.run_down == story.shop.machine.run_down
    assert story.events(DatumSet)[0] == DatumSet("run_down", 10_000, "a2")


def test_spells_can_be_turned_off_for_the_drill() -> None:
    story = corner()
    story.touch(Act("data"))
    story.touch(Act("datum", "spell"))
    story.touch(Act("set_datum", "spell 0"))

    assert not fitted(story.shop, story.kiosk).machine.spell_allowed
    story.give(Act("set_datum", "spell 2"))
    assert len(story.events(DatumSet)) == 1


# --- the kiosk itself ----------------------------------------------------------------------------


def test_the_wall_sheet_is_entered_afterwards_as_said_by_a_teacher_too() -> None:
    story = signed_in(TEACHER)
    for about in ("", "1", "1 60", "1 60 5"):
        story.touch(Act("down", about))

    assert story.events(DownSaid) == [DownSaid(story.now.day - 1, 60, 5, "a1")]
    assert story.kiosk.desk.page == "menu"


def test_a_restart_is_asked_for_twice_and_names_who() -> None:
    story = corner()
    story.touch(Act("ask_restart"))
    assert story.events(RestartAsked) == []

    story.touch(Act("restart"))

    assert story.events(RestartAsked) == [RestartAsked("a2")]


def test_the_corner_is_the_technicians() -> None:
    story = signed_in(TEACHER)
    assert Act("care") not in shown(story)

    for act in ("care", "checks", "racks", "deputy", "data", "restart", "ask_restart"):
        story.give(Act(act))
        assert story.refusal == "not_allowed", act
    for act, about in (("set_datum", "spell 0"), ("name_deputy", "a1"), ("checked", "x right 0")):
        story.give(Act(act, about))
        assert story.refusal == "not_allowed", act


def test_all_of_it_stands_after_a_replay() -> None:
    story = corner()
    story.touch(Act("racks"))
    story.touch(Act("rack", "twist 8000"))
    story.touch(Act("bit_changed", "twist 8000 new"))

    assert replay(story.record, EMPTY).care == story.kiosk.care
