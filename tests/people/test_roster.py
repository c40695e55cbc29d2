"""The roster file: forgiving in form, strict in meaning, every mistake with its line."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.model import Level
from kiosk.people import RosterGroup, RosterPupil, read_roster, with_refs

DEMO = Path(__file__).parents[2] / "demo" / "roster" / "roster.csv"
HEAD = "group,number,level,name\n"
BLUE = RosterGroup(
    "year-8-blue",
    "Year 8 blue",
    (RosterPupil(3, Level.SHOWN), RosterPupil(14, Level.SIGNED_OFF, "Ann Other")),
)
TIDY = HEAD + "Year 8 blue,3,shown,\nYear 8 blue,14,signed off,Ann Other\n"


def read(folder: Path, text: str | bytes) -> tuple[tuple[RosterGroup, ...], list[str]]:
    """The groups of a file with this text, and its problems as they are printed."""
    path = folder / "roster.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    groups, problems = read_roster(path)
    return groups, [str(p).removeprefix(f"{folder}/") for p in problems]


def test_a_tidy_file_gives_its_groups_and_pupils_by_number(tmp_path: Path) -> None:
    groups, problems = read(tmp_path, TIDY)

    assert (groups, problems) == ((BLUE,), [])


@pytest.mark.parametrize(
    "text",
    [
        TIDY.replace("\n", "\r\n"),
        TIDY.replace(",", ";"),
        TIDY.replace(",", "\t"),
        TIDY.replace(",", " , "),
        TIDY.upper().replace("ANN OTHER", "Ann Other").replace("YEAR 8 BLUE,3", "Year 8 blue,3"),
        TIDY.replace("signed off", "Signed-Off").replace("shown", "SHOWN "),
        TIDY.replace("signed off", "signed_off"),
        "# a remark, with a comma\n\n;;;\n" + TIDY,
        TIDY.replace("Ann Other", '"Ann Other"'),
        "\ufeff" + TIDY,
        TIDY.encode("utf-16"),
        HEAD
        + "Year 8 blue,14,signed off,Ann Other\nyear 8  BLUE,3,shown\n".replace(
            "year 8  BLUE,3", "Year 8  blue,03"
        ),
    ],
)
def test_the_form_does_not_matter(tmp_path: Path, text: str | bytes) -> None:
    groups, problems = read(tmp_path, text)

    assert (groups, problems) == ((BLUE,), [])


def test_the_name_column_may_be_left_out_and_columns_may_change_places(tmp_path: Path) -> None:
    groups, problems = read(tmp_path, "level,number,group\nshown,3,Year 8 blue\n")

    assert problems == []
    assert groups == (RosterGroup("year-8-blue", "Year 8 blue", BLUE.pupils[:1]),)


def test_windows_letters_are_read(tmp_path: Path) -> None:
    groups, _ = read(tmp_path, (HEAD + "8b,1,shown,Zoë Ünlü\n").encode("cp1252"))

    assert groups[0].pupils[0].name == "Zoë Ünlü"


def test_a_number_twice_in_a_group_names_both_lines_and_keeps_the_first(tmp_path: Path) -> None:
    groups, problems = read(tmp_path, HEAD + "8b,3,shown,\n9a,3,shown,\n8B,3,signed off,\n")

    assert problems == [
        "roster.csv:4: number 3 twice in '8B', first in line 2; "
        "allowed: each number once in a group"
    ]
    assert [(g.id, g.pupils) for g in groups] == [
        ("8b", (RosterPupil(3, Level.SHOWN),)),
        ("9a", (RosterPupil(3, Level.SHOWN),)),
    ]


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("8b,3,show,", "level 'show'; allowed: adult beside, shown, supervised, signed off;"),
        ("8b,3,,", "level ''; allowed: adult beside"),
        ("8b,0,shown,", "number '0'; allowed: a whole number from 1 to 999"),
        ("8b,1.5,shown,", "number '1.5'; allowed: a whole number"),
        ("8b,1000,shown,", "number '1000'; allowed: a whole number"),
        ("8b,٣,shown,", "number '٣'; allowed: a whole number"),
        (",3,shown,", "group ''; allowed: 1 to 60 letters"),
        ("-,3,shown,", "group '-'; allowed: 1 to 60 letters"),
        (f"8b,3,shown,{'x' * 61}", "allowed: at most 60 letters"),
        ("8b,3,shown,Other,Ann", "5 cells; allowed: 4; put a cell with a comma in quotes"),
        ('8b,3,shown,"Ann', "quotes that don't match"),
    ],
)
def test_a_mistake_is_one_problem_and_the_next_line_is_read(
    tmp_path: Path, row: str, said: str
) -> None:
    groups, problems = read(tmp_path, f"{HEAD}{row}\n8b,14,shown,\n")

    assert len(problems) == 1
    assert problems[0].startswith("roster.csv:2: ")
    assert said in problems[0]
    assert [p.number for g in groups for p in g.pupils] == [14]


def test_every_mistake_of_a_line_is_named(tmp_path: Path) -> None:
    _, problems = read(tmp_path, HEAD + ",x,y,\n")

    assert len(problems) == 3


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("group,number,levle", "column 'levle'; allowed: group, number, level, name; did you mean"),
        ("group,number", "no column level"),
        ("group,number,level,number", "column 'number' twice; allowed: once"),
        ("8b,3,shown", "no column group"),
    ],
)
def test_a_wrong_first_line_is_said_and_nothing_is_guessed(
    tmp_path: Path, head: str, said: str
) -> None:
    groups, problems = read(tmp_path, f"# invented\n{head}\n8b,3,shown\n")

    assert groups == ()
    assert problems[0].startswith("roster.csv:2: ")
    assert said in problems[0]


def test_a_misspelt_column_is_one_problem_not_two(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "group,number,levle\n8b,3,shown\n")

    assert len(problems) == 1


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n", "\ufeff"])
def test_an_empty_file_says_what_belongs_in_it(tmp_path: Path, text: str) -> None:
    groups, problems = read(tmp_path, text)

    assert groups == ()
    assert problems == ["roster.csv: an empty file; allowed: a first line group,number,level,name"]


def test_a_missing_file_is_a_problem_and_no_error(tmp_path: Path) -> None:
    groups, problems = read_roster(tmp_path / "none.csv")

    assert groups == ()
    assert "No such file" in str(problems[0])


@given(st.binary(max_size=200))
def test_no_file_whatever_it_holds_breaks_the_reader(tmp_path_factory, raw: bytes) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path_factory.getbasetemp() / "any.csv"
    path.write_bytes(raw)

    groups, problems = read_roster(path)

    assert all(p.place.file == str(path) for p in problems)
    assert all(pupil.number for group in groups for pupil in group.pupils)


def test_references_join_the_numbers_of_a_group() -> None:
    group = with_refs(BLUE, {3: "p3", 14: "p14"})

    assert [(p.ref, p.number, p.level, p.name) for p in group.pupils] == [
        ("p3", 3, Level.SHOWN, ""),
        ("p14", 14, Level.SIGNED_OFF, "Ann Other"),
    ]


def test_the_demonstration_roster_reads_clean_is_marked_invented_and_names_nobody() -> None:
    groups, problems = read_roster(DEMO)

    assert problems == ()
    assert "Invented" in DEMO.read_text().splitlines()[0]
    assert [g.name for g in groups] == ["Year 8 blue"]
    assert {p.level for p in groups[0].pupils} == set(Level)
    assert not any(p.name for p in groups[0].pupils)
