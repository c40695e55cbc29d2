"""Printed sheets at the screen: picked, read part by part, put on a stick."""

from __future__ import annotations

import pytest

from kiosk.core.events import SheetAccepted, SheetAsked
from kiosk.core.inputs import Act, DownloadMoved, LeavePage, SheetEnded, SheetRead
from kiosk.core.kiosk import next_deadline
from tests.core.adults_story import COVER, signed_in, with_cover
from tests.core.care_story import at_the_menu, shown
from tests.core.exploring import SHEET_PARTS
from tests.core.story import TEACHER, TECHNICIAN, Story, begun, lesson_open
from tests.core.test_jobs_made import STEEL, kept


def reading(sheet: str = "wall A4") -> Story:
    """A teacher reads a sheet."""
    story = signed_in(TEACHER)
    story.touch(Act("sheets"))
    story.touch(Act("sheet", sheet))
    story.give(SheetRead(sheet, SHEET_PARTS))
    return story


def test_a_teacher_picks_a_sheet_and_reads_all_its_parts() -> None:
    story = signed_in(TEACHER)
    story.touch(Act("sheets"))
    assert [b.label for b in story.view.choices][:3] == [
        "Risk assessment record",
        "Wall sheet, A4",
        "Wall sheet, A3",
    ]
    story.touch(Act("sheet", "wall A4"))
    assert story.view.lines == ("The sheet is being made. It takes a few seconds.",)

    story.give(SheetRead("wall A4", SHEET_PARTS))

    assert story.view.title == "1 of 2: Wall sheet"
    assert story.view.lines == SHEET_PARTS[0][1:]
    story.touch(Act("sheet_part", "1"))
    assert story.view.title == "2 of 2: The order of work"
    assert len(story.view.lines) == 30
    story.touch(Act("sheet_part", "0"))
    assert story.view.title == "1 of 2: Wall sheet"
    assert story.events(SheetAsked) == [SheetAsked("a1", "wall A4")]


def test_a_card_is_of_a_job_and_jobs_made_at_the_screen_are_among_them() -> None:
    story = kept(STEEL, "twist:8000 0 2")
    at_the_menu(story, TEACHER)
    story.touch(Act("sheets"))
    story.touch(Act("sheet", "card"))

    assert [b.label for b in story.view.choices][-1] == "Job 1: mild steel"
    story.touch(Act("sheet", "card made_1"))
    assert story.view.title == "Lesson card of a job: Job 1: mild steel"
    story.give(Act("sheets"))
    story.give(Act("sheet", "card no_such_job"))
    assert story.events(SheetAsked) == [SheetAsked("a1", "card made_1")]


def test_it_goes_on_the_stick_with_a_bar_and_a_true_end() -> None:
    story = reading()
    story.touch(Act("sheet_out", "wall A4"))
    assert not any(b.live for b in story.view.buttons)
    story.give(DownloadMoved(2, 4))
    assert story.view.progress is not None
    assert (story.view.progress.done, story.view.progress.whole) == (2, 4)

    story.give(SheetEnded(""))

    assert story.view.lines[0] == "The sheet is on the stick, to read and to print."
    assert story.view.progress is None
    assert story.events(SheetAccepted) == [SheetAccepted("a1", "wall A4")]
    story.touch(Act("sheets"))


@pytest.mark.parametrize(
    ("why", "said"),
    [
        ("full", "The stick is full. Nothing was lost. Take another one."),
        ("gone", "The stick was taken out. Nothing was lost. Put it in and try again."),
        ("read_only", "The stick can't be written to. Nothing was lost. Take another one."),
        ("no_stick", "No stick is here. Put one in and try again."),
    ],
)
def test_what_went_wrong_with_the_stick_is_said_and_it_can_be_tried_again(
    why: str, said: str
) -> None:
    story = reading()
    story.touch(Act("sheet_out", "wall A4"))

    story.give(SheetEnded(why))

    assert story.view.lines == (said,)
    story.touch(Act("sheet_out", "wall A4"))
    assert len(story.events(SheetAccepted)) == 2


def test_a_sheet_that_can_not_be_made_says_so_and_goes_nowhere() -> None:
    story = signed_in(TEACHER)
    story.touch(Act("sheets"))
    story.touch(Act("sheet", "commissioning"))

    story.give(SheetRead("commissioning", (), "no_sheet"))

    assert story.view.lines == ("This sheet can't be made for this drill. Pick another one.",)
    story.give(Act("sheet_out", "commissioning"))
    assert story.events(SheetAccepted) == []


def test_only_what_was_read_goes_on_a_stick_and_late_answers_do_nothing() -> None:
    story = reading()
    story.give(Act("sheet_out", "wall A3"))
    story.give(Act("sheet_part", "2"))
    story.give(Act("sheet", "wall A5"))
    assert story.view.title == "1 of 2: Wall sheet"
    story.touch(Act("sheets"))

    story.give(SheetRead("wall A4", SHEET_PARTS))
    story.give(SheetEnded(""))

    assert story.view.title == "Which sheet?"
    assert story.events(SheetAccepted) == []


def test_there_is_time_to_read_and_then_the_desk_is_left() -> None:
    story = reading()
    due = next_deadline(story.shop, story.kiosk, story.now)
    assert due is not None and (due.us - story.now.us) / 1e6 == 300

    story.give(LeavePage())

    assert not story.kiosk.desk.parts


def test_sheets_are_for_teachers_and_technicians_and_not_beside_a_turn() -> None:
    story = with_cover(begun(), 5)
    at_the_menu(story, COVER)
    assert Act("sheets") not in shown(story)
    story.give(Act("sheets"))
    assert story.refusal == "not_allowed"

    story = lesson_open()
    at_the_menu(story, TECHNICIAN)
    assert Act("sheets") in shown(story)
