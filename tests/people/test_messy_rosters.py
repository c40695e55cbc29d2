"""Rosters as school offices save them: read, or told exactly which row and why."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook

from kiosk.core.model import Level
from kiosk.people import RosterPupil, read_roster


def workbook(folder: Path, *sheets: tuple[str, list[list[Any]]], merge: str = "") -> Path:
    """A workbook with these sheets; `merge` merges cells of the first."""
    book = Workbook()
    book.remove(book.active)
    for name, rows in sheets:
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    if merge:
        book.worksheets[0].merge_cells(merge)
    path = folder / "roster.xlsx"
    book.save(path)
    return path


def said(path: Path) -> list[str]:
    return [str(p).replace(str(path.parent) + "/", "") for p in read_roster(path)[1]]


MESSY = [
    ["Design and Technology, autumn term", None, None, None, None, None],
    [None, None, None, None, None, None],
    ["Class", "Pupil", None, "No.", "Drill level", "SEN notes"],
    ["8B ", "Ash", "Ann", 1.0, "Supervised ", "never read"],
    [None, None, None, None, None, None],
    ["8B", "Ash", "Ann", 2, "signed-off", None],
    [" 8b", "Elm ", " Bo", "3", "adult beside", None],
]


def test_a_title_merged_cells_blank_rows_spaces_and_floats_are_read(tmp_path: Path) -> None:
    path = workbook(tmp_path, ("Pupils", MESSY), merge="B3:C3")

    groups, problems = read_roster(path)

    assert problems == ()
    assert [(g.id, g.name) for g in groups] == [("8b", "8B")]
    assert [(p.number, p.level) for p in groups[0].pupils] == [
        (1, Level.SUPERVISED),
        (2, Level.SIGNED_OFF),
        (3, Level.ADULT_BESIDE),
    ]


def test_names_of_columns_in_two_rows_are_put_together(tmp_path: Path) -> None:
    rows = [
        ["Group", "Number", "Pupil", None, "Level"],
        [None, None, "Forename", "Surname", None],
        ["8B", 4, "Ann", "Ash", "shown"],
    ]

    groups, problems = read_roster(workbook(tmp_path, ("Pupils", rows), merge="C1:D1"))

    assert problems == ()
    assert groups[0].pupils == (RosterPupil(4, Level.SHOWN, "Ann Ash"),)


def test_without_a_column_for_it_the_sheets_name_is_the_group(tmp_path: Path) -> None:
    rows = [["No", "Level"], [1, "shown"]]

    groups, problems = read_roster(workbook(tmp_path, ("8B", rows), ("9 red", rows)))

    assert problems == ()
    assert [g.id for g in groups] == ["8b", "9-red"]


def test_a_sheet_without_a_roster_is_passed_over_if_another_has_one(tmp_path: Path) -> None:
    notes = [["Please return to the office"]]

    groups, problems = read_roster(
        workbook(tmp_path, ("Notes", notes), ("8B", [["No", "Level"], [1, "shown"]]))
    )

    assert problems == () and [g.id for g in groups] == ["8b"]


def test_a_number_that_became_a_date_is_told_with_its_row(tmp_path: Path) -> None:
    rows = [
        ["group", "number", "level"],
        ["8B", 1, "shown"],
        ["8B", date(2026, 4, 3), "shown"],
        [date(2026, 2, 8), 3, "shown"],
    ]
    path = workbook(tmp_path, ("Pupils", rows))

    assert said(path) == [
        "roster.xlsx:3: number 'a date'; allowed: a whole number from 1 to 999",
        "roster.xlsx:4: group 'a date'; allowed: 1 to 60 letters",
    ]


def test_two_pupils_of_one_name_are_two_and_one_number_twice_is_told(tmp_path: Path) -> None:
    rows = [
        ["group", "number", "level", "name"],
        ["8B", 1, "shown", "Ann Ash"],
        ["8B", 2, "shown", "Ann Ash"],
        ["8B", 2, "shown", "Bo Elm"],
    ]
    path = workbook(tmp_path, ("Pupils", rows))

    assert len(read_roster(path)[0][0].pupils) == 2
    assert said(path) == [
        "roster.xlsx:4: number 2 twice in '8B', first in line 3; "
        "allowed: each number once in a group"
    ]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("code", ["utf-8-sig", "utf-16", "cp1252"])
def test_text_of_any_office_is_read(tmp_path: Path, mark: str, code: str) -> None:
    rows = [
        ["Autumn term", "", "", "", ""],
        ["", "", "", "", ""],
        ["Teaching group", "List no.", "Surname", "First name", "Training level"],
        [" 8B", "01", "Ünlü ", "Zoë", "Shown"],
    ]
    path = tmp_path / "roster.csv"
    path.write_bytes("\r\n".join(mark.join(row) for row in rows).encode(code))

    groups, problems = read_roster(path)

    assert problems == ()
    assert groups[0].pupils == (RosterPupil(1, Level.SHOWN, "Zoë Ünlü"),)


def test_a_club_lists_pupils_of_other_groups(tmp_path: Path) -> None:
    path = tmp_path / "roster.csv"
    path.write_text(
        "group,number,level,same as\n8B,14,supervised,\n9A,2,shown,\nClub,1,,8B 14\nClub,2,,9a 2\n"
    )

    groups, problems = read_roster(path)

    assert problems == ()
    assert [p.same for p in groups[2].pupils] == [("8b", 14), ("9a", 2)]


def test_a_club_that_lists_nobodys_number_is_told(tmp_path: Path) -> None:
    path = tmp_path / "roster.csv"
    path.write_text("group,number,level,same as\n8B,14,supervised,\nClub,1,,8B 15\nClub,2,,x\n")

    assert said(path) == [
        "roster.csv:3: same as 8b 15; allowed: a pupil of this file; list that group too",
        "roster.csv:4: same as 'x'; allowed: a group and a number, such as 8B 14",
    ]


def test_visitors_and_an_adult_beside_are_flags_and_a_reason_is_not_repeated(
    tmp_path: Path,
) -> None:
    path = tmp_path / "roster.csv"
    path.write_text(
        "group,number,level,adult beside,visitor\n"
        "8B,1,signed off,yes,\n8B,2,,,x\n8B,3,shown,because of a seizure,\n"
    )

    groups, _ = read_roster(path)

    assert groups[0].pupils == (
        RosterPupil(1, Level.SIGNED_OFF, beside=True),
        RosterPupil(2, Level.ADULT_BESIDE, visitor=True),
    )
    assert said(path) == [
        "roster.csv:4: adult beside is neither yes nor no; allowed: yes, no; give no reason"
    ]


def test_what_only_looks_like_a_workbook_is_said_plainly(tmp_path: Path) -> None:
    path = tmp_path / "roster.xlsx"
    path.write_bytes(b"PK\x03\x04 not a workbook")

    assert said(path) == [
        "roster.xlsx: a workbook that can't be opened; "
        "allowed: a workbook that opens, or a CSV file"
    ]


OFFICE = (
    "\ufeffTechnology groups;;;;;\r\n;;;;;\r\n"
    "Reg group ;No.;Surname;Forename ;Drill level;D.O.B.\r\n"
    "8 Blue ;1; Quill;Zeph ;supervised;45721\r\n;;;;;\r\n"
    "8 Blue;2;Quill;Zeph;shown ;45722\r\n"
)


def test_a_file_of_an_office_with_title_mark_and_semicolons_is_read(tmp_path: Path) -> None:
    path = tmp_path / "roster.csv"
    path.write_bytes(OFFICE.encode())

    groups, problems = read_roster(path)

    assert problems == ()
    assert [(p.number, p.name) for p in groups[0].pupils] == [(1, "Zeph Quill"), (2, "Zeph Quill")]


def test_where_columns_are_missing_the_row_that_names_most_is_told(tmp_path: Path) -> None:
    path = tmp_path / "roster.csv"
    path.write_bytes(OFFICE.replace("No.", "Shoe size").encode())

    assert said(path) == [
        "roster.csv:3: no column number; allowed: group, number, level, name",
    ]


def test_a_date_as_a_number_is_no_list_number(tmp_path: Path) -> None:
    path = tmp_path / "roster.csv"
    path.write_bytes(OFFICE.replace("8 Blue;2;", "8 Blue;45721;").encode())

    assert said(path) == ["roster.csv:6: number '45721'; allowed: a whole number from 1 to 999"]
