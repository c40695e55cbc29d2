"""`pillarside roster`: the preview, all taken in or nothing, and no name where none is wanted."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kiosk.cli import group
from kiosk.cli.taking import take
from kiosk.core.events import BesideSet, LevelSet, RosterTaken
from kiosk.core.model import Level
from kiosk.store import ReadOnlyRecord, Record

ROWS = (
    "Class,No,Drill level,Surname,First name,adult beside\n"
    "8B,1,supervised,Quillfeather,Zephyrine,\n"
    "8B,2,shown,Oxtoby-Marl,Ignatz,yes\n"
)
NAMES = ("Quillfeather", "Zephyrine", "Oxtoby-Marl", "Ignatz")


@pytest.fixture
def record(tmp_path: Path) -> Path:
    path = tmp_path / "drill.sqlite"
    Record.open(path).close()
    return path


def run(record: Path, text: str, *more: str) -> Result:
    file = record.parent / "roster.csv"
    file.write_text(text)
    return CliRunner().invoke(group, ["roster", str(file), "--record", str(record), *more])


def kept(record: Path) -> list[tuple[str, int, Level, str]]:
    with ReadOnlyRecord(record) as opened:
        return [(g.id, p.number, p.level, p.name) for g in opened.groups() for p in g.pupils]


def test_the_preview_changes_nothing_and_says_so(record: Path) -> None:
    done = run(record, ROWS)

    assert done.output == (
        "+ 8B 1: supervised\n+ 8B 2: shown, adult always beside\n"
        "Come 2, change 0, leave 0.\nNothing is changed yet. Take it in with --accept.\n"
    )
    assert kept(record) == []


def test_what_was_taken_in_is_previewed_against_the_next_time(record: Path) -> None:
    run(record, ROWS, "--accept")

    done = run(record, "group,number,level\n8B,1,signed off\n9A,3,shown\n")

    assert done.output.splitlines()[:3] == [
        "+ 9A 3: shown",
        "~ 8B 1: the file says signed off; what was granted at the drill stands",
        "- 8B 2",
    ]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ((), "The file says what is known here already: taking it in would change nothing."),
        (("--accept",), "Taken in. Nothing was changed by it."),
    ],
)
def test_a_file_that_says_what_is_known_already_is_said_to_change_nothing(
    record: Path, more: tuple[str, ...], said: str
) -> None:
    rows = f"{ROWS}Club,7,shown,,,\n"
    run(record, rows, "--accept")

    done = run(record, rows, *more)

    assert done.output == f"Come 0, change 0, leave 0.\n{said}\n"


def test_one_who_turns_out_to_be_in_two_groups_is_a_change(record: Path) -> None:
    run(record, "group,number,level,same as\n8B,1,shown,\nClub,7,shown,\n", "--accept")

    done = run(record, "group,number,level,same as\n8B,1,shown,\nClub,7,shown,8B 1\n")

    assert done.output == (
        "~ names that are kept here, or who is one pupil in two groups\n"
        "Come 0, change 0, leave 0.\nNothing is changed yet. Take it in with --accept.\n"
    )


def test_taking_in_is_recorded_by_reference_and_count(record: Path) -> None:
    run(record, ROWS, "--accept")

    with ReadOnlyRecord(record) as opened:
        events = [e.event for e in opened.entries(1, opened.head[0])]
        refs = {p.number: p.ref for g in opened.groups() for p in g.pupils}
    assert events == [
        RosterTaken("command", 2, 2, 0, 0),
        LevelSet(refs[1], "supervised", "command"),
        LevelSet(refs[2], "shown", "command"),
        BesideSet(refs[2], 1, "command"),
    ]


def test_one_mistake_and_nothing_is_taken_in(record: Path) -> None:
    done = run(record, ROWS + "8B,x,shown,,,\n", "--accept")

    assert done.exit_code == 1
    assert "roster.csv:4: number 'x'" in done.output
    assert "mistakes: 1; nothing was taken in" in done.output
    assert kept(record) == []


def test_a_leaver_keeps_the_reference_and_comes_back_to_it(record: Path) -> None:
    run(record, ROWS, "--accept")
    with ReadOnlyRecord(record) as opened:
        before = [p.ref for p in opened.groups()[0].pupils]
    run(record, "group,number,level\n9A,3,shown\n", "--accept")

    run(record, ROWS, "--accept")

    with ReadOnlyRecord(record) as opened:
        assert [p.ref for p in opened.groups()[0].pupils] == before


def test_a_club_member_is_the_same_pupil(record: Path) -> None:
    run(record, "group,number,level,same as\n8B,1,shown,\nClub,7,,8B 1\n", "--accept")

    with ReadOnlyRecord(record) as opened:
        (home,), (club,) = (g.pupils for g in opened.groups())
    assert home.ref == club.ref and club.number == 7


def test_without_names_no_file_of_the_record_and_no_download_has_one(
    record: Path, tmp_path: Path
) -> None:
    done = run(record, ROWS, "--accept")
    (tmp_path / "stick").mkdir()
    taken = take(record, "all", tmp_path / "stick", lambda done, whole: None)

    (record.parent / "roster.csv").unlink()
    files = [p for p in record.parent.rglob("*") if p.is_file()]
    assert any(p.is_relative_to(taken.folder) for p in files)
    for path in files:
        raw = path.read_bytes()
        for name in NAMES:
            assert name.encode() not in raw and name.encode("utf-16-le") not in raw, path
    assert not any(name in done.output for name in NAMES)


def test_names_come_in_only_where_the_schools_own_file_says_so(
    record: Path, tmp_path: Path
) -> None:
    school = tmp_path / "school"
    school.mkdir()
    (school / "people.yaml").write_text("names: yes\n")

    run(record, ROWS, "--accept", "--school", str(school))

    assert [name for *_, name in kept(record)] == [
        "Zephyrine Quillfeather",
        "Ignatz Oxtoby-Marl",
    ]
    done = run(record, ROWS, "--accept")
    assert (
        done.output.splitlines()[0]
        == "~ names that are kept here, or who is one pupil in two groups"
    )
    assert [name for *_, name in kept(record)] == ["", ""]
