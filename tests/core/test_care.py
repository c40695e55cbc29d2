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
    TakenOutOfUse,
)
from kiosk.core.inputs import Act, LeavePage
from kiosk.core.kiosk import EMPTY, replay
from kiosk.core.kiosk.fitted import fitted
from kiosk.core.kiosk.making import Making, sizes_for
from kiosk.core.model import InstallationCheck
from kiosk.core.model.hazards import EPOCH, months_after
from tests.core.adults_story import pass_days, signed_in
from tests.core.care_story import at_the_menu, broken, corner, shown
from tests.core.story import CONTENT, TEACHER, TECHNICIAN, WORDS, Story

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
    assert f"Periodic checks due, overdue or not entered: {first}" in story.view.lines
    story.touch(Act("checks"))
    story.touch(Act("check", "rcd_tested"))
    story.touch(Act("checked", "rcd_tested right 0"))
    pass_days(story, 200)
    story.touch(Act("care"))
    story.touch(Act("checks"))

    assert "Over since" in next(b.label for b in story.view.choices if "rcd" in str(b.touch))


PERIODIC = {
    "belt_sound": "4 months",
    "bolts_tight": "6 months",
    "guard_sound": "4 months",
    "switch_tested": "4 months",
    "isolator_works": "6 months",
    "room_stop_tested": "4 months",
    "good_light": "1 year",
    "extraction_tested": "14 months",
}


def failed(check: str) -> Story:
    """The technician has entered a check as not right."""
    story = corner()
    story.touch(Act("checks"))
    story.touch(Act("check", check))
    story.touch(Act("checked", f"{check} wrong 0"))
    return story


def test_each_part_of_the_drill_has_a_check_with_a_date() -> None:
    written = {c.id: c for c in CONTENT.assessment.installation}
    against = {c.id for hazard in CONTENT.assessment.hazards for c in hazard.controls}

    assert {name: written[name].every for name in PERIODIC} == PERIODIC
    assert set(written) <= against  # each belongs to a hazard of the assessment


@pytest.mark.parametrize("check", PERIODIC)
def test_a_check_that_fails_takes_the_drill_out_of_use_with_who(check: str) -> None:
    story = failed(check)

    assert story.events(CheckDone) == [CheckDone(check, "wrong", story.now.day, "a2")]
    assert story.events(TakenOutOfUse) == [TakenOutOfUse(check, "a2")]
    story.give(LeavePage())
    assert story.view.screen == "out_of_use"
    assert WORDS.say(f"control.{check}") in story.view.lines[0]


def test_a_check_of_the_room_is_noted_and_the_drill_stays_in_use() -> None:
    story = failed("sound_shoes")

    assert story.kiosk.machine.out_of_use == ""
    assert "Was not right" in next(b.label for b in story.view.choices if "shoes" in str(b.touch))


def test_the_drill_returns_only_once_the_check_was_entered_as_right() -> None:
    story = failed("belt_sound")
    story.give(Act("return"))
    assert story.refusal == "check_first"
    assert story.kiosk.machine.out_of_use == "belt_sound"

    story.give(Act("check", "belt_sound"))
    story.touch(Act("checked", "belt_sound right 0"))
    story.give(Act("return"))

    assert story.kiosk.machine.out_of_use == ""
    assert broken(story) == set()
    entered = CheckDone("belt_sound", "right", story.now.day, "a2")
    story.record = [e for e in story.record if e.event != entered]
    assert broken(story) == {"technician_returns"}


def test_the_faults_so_far_say_that_the_check_was_not_right() -> None:
    story = failed("belt_sound")
    story.give(Act("fault_log"))

    assert "Not right: Belt and pulleys looked over inside" in story.view.lines[0]


def test_a_check_that_fails_leaves_the_reason_that_stands() -> None:
    story = corner()
    story.give(Act("out_why", "locked_off"))
    at_the_menu(story, TECHNICIAN)
    story.give(Act("checked", "belt_sound wrong 0"))

    assert story.kiosk.machine.out_of_use == "locked_off"
    story.give(Act("return"))
    assert story.refusal == "check_first"


def test_a_teacher_is_told_at_the_menu_that_checks_are_due() -> None:
    story = signed_in(TEACHER)
    due = len(story.shop.content.assessment.installation)

    assert f"Checks due, overdue or not entered: {due}. Tell the technician." in story.view.lines


def test_a_check_says_what_is_looked_at_and_who_entered_it_last() -> None:
    story = corner()
    story.touch(Act("checks"))
    story.touch(Act("check", "bolts_tight"))
    story.touch(Act("checked", "bolts_tight right 7"))
    story.touch(Act("check", "bolts_tight"))

    told = " ".join(story.view.lines)
    assert "Fixing to bench or floor" in told and TECHNICIAN.name in told
    assert "takes the drill out of use" in told


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


def test_a_worn_chuck_takes_thinner_bits_and_never_thicker_ones_than_the_file_says() -> None:
    story = corner()
    story.touch(Act("data"))
    story.touch(Act("datum", "widest"))
    story.touch(Act("set_datum", "widest 8"))

    machine = fitted(story.shop, story.kiosk).machine
    assert machine.chuck_capacity.mm == 8
    sizes = sizes_for(
        fitted(story.shop, story.kiosk), Making.of("8b mild_steel bar 6000 40000 120000")
    )
    assert max(um for _, um in sizes) == 8000

    story.touch(Act("datum", "widest"))
    story.touch(Act("set_datum", "widest 20"))
    assert fitted(story.shop, story.kiosk).machine == story.shop.machine


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
