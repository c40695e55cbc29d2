"""`pillarside levels`: what was granted at one drill counts at the other that is alike."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kiosk.cli import group
from kiosk.cli.adult import record_events
from kiosk.core.events import LevelGranted, LevelKept
from kiosk.core.inputs import KioskBegan
from kiosk.core.kiosk import from_outside
from kiosk.core.model import Level
from kiosk.runtime.settings import TREE
from kiosk.store import Record

ROSTER = "group,number,level,surname\n8B,1,shown,Quillfeather\n8B,2,shown,Oxtoby\n"
HEAD = "group,number,alike,bits,level,granted,ends,used\n"
DAY = 20_000  # 2024-10-04


@pytest.fixture
def school(tmp_path: Path) -> Path:
    """Both drills are called alike."""
    machine = (TREE / "sequences" / "machines" / "drill-1.yaml").read_text("utf-8")
    folder = tmp_path / "school" / "machines"
    folder.mkdir(parents=True)
    (folder / "drill-1.yaml").write_text(machine + "alike: bench_drills\n", "utf-8")
    return tmp_path / "school"


def drill(tmp_path: Path, name: str) -> Path:
    """A drill's record with the same roster, each with references of its own."""
    path = tmp_path / f"{name}.sqlite"
    record = Record.open(path)
    kiosk = record.restore()
    record_events(record, kiosk, from_outside(kiosk, KioskBegan("drill-1", "x", "first")).events)
    record.close()
    (tmp_path / "roster.csv").write_text(ROSTER)
    done = run("roster", tmp_path / "roster.csv", "--record", path, "--accept")
    assert done.exit_code == 0, done.output
    return path


def run(*words: object) -> Result:
    return CliRunner().invoke(group, [str(word) for word in words])


def granted(path: Path, number: int, level: str, since: int = DAY) -> None:
    """A teacher has granted a level at this drill."""
    record = Record.open(path)
    kiosk, ref = record.restore(), ref_of(record, number)
    event = LevelKept(ref, level, "bench_drills", "plain", since, since + 366, since, "a1")
    record_events(record, kiosk, (event,))
    record.close()


def ref_of(record: Record, number: int) -> str:
    return next(p.ref for g in record.groups() for p in g.pupils if p.number == number)


def level_at(path: Path, number: int) -> Level | None:
    """The level that stands there for drills alike."""
    record = Record.open(path)
    ref, pupils = ref_of(record, number), record.restore().pupils
    record.close()
    mine = (g for g in pupils.grants if g.pupil == ref and g.alike == "bench_drills")
    return next((g.level for g in mine), None)


def test_a_level_granted_at_one_drill_counts_at_the_other(tmp_path: Path, school: Path) -> None:
    one, other = drill(tmp_path, "one"), drill(tmp_path, "other")
    granted(one, 1, "supervised")
    table = tmp_path / "levels.csv"

    wrote = run("levels", "--record", one, "--to", table, "--school", school)
    looked = run("levels", table, "--record", other)
    assert level_at(other, 1) is None
    took = run("levels", table, "--record", other, "--accept")

    assert wrote.exit_code == looked.exit_code == took.exit_code == 0, wrote.output
    assert table.read_text() == (
        f"{HEAD}8B,1,bench_drills,plain,supervised,2024-10-04,2025-10-05,2024-10-04\n"
    )
    assert "newer than here 1, not known 0" in looked.output
    assert level_at(other, 1) is Level.SUPERVISED
    assert "newer than here 0" in run("levels", table, "--record", other, "--accept").output


def test_what_was_granted_last_stands_be_it_lower(tmp_path: Path, school: Path) -> None:
    one, other = drill(tmp_path, "one"), drill(tmp_path, "other")
    granted(one, 1, "signed_off", DAY)
    granted(other, 1, "shown", DAY + 5)
    table = tmp_path / "levels.csv"
    run("levels", "--record", one, "--to", table, "--school", school)

    run("levels", table, "--record", other, "--accept")

    assert level_at(other, 1) is Level.SHOWN


def test_the_table_has_no_names_and_no_references(tmp_path: Path, school: Path) -> None:
    one = drill(tmp_path, "one")
    granted(one, 2, "supervised")
    run("levels", "--record", one, "--to", tmp_path / "levels.csv", "--school", school)

    text = (tmp_path / "levels.csv").read_text()
    record = Record.open(one)
    refs = [p.ref for g in record.groups() for p in g.pupils]
    record.close()
    assert not any(word in text for word in ("Quillfeather", "Oxtoby", *refs))


def test_who_is_not_on_the_lists_is_told(tmp_path: Path, school: Path) -> None:
    table = tmp_path / "levels.csv"
    table.write_text(f"{HEAD}9Z,4,bench_drills,plain,shown,2024-10-04,,2024-10-04\n")

    done = run("levels", table, "--record", drill(tmp_path, "one"), "--accept")

    assert "? 9Z 4: not on this drill's lists" in done.output
    assert "newer than here 0, not known 1" in done.output


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("8B,x,b,plain,shown,2024-10-04,,2024-10-04", "levels.csv:2: number 'x'; allowed: a whole"),
        ("8B,1,b,plain,showm,2024-10-04,,2024-10-04", "did you mean 'shown'?"),
        ("8B,1,b,plain,shown,soon,,2024-10-04", "granted 'soon'; allowed: a date"),
        ("8B,1,b,plain,shown,2024-10-04,", "7 cells; allowed: 8"),
        ("8B,1,,plain,shown,2024-10-04,,2024-10-04", "no alike"),
    ],
)
def test_a_mistake_is_told_with_its_line_and_nothing_is_taken_in(
    tmp_path: Path, line: str, said: str
) -> None:
    (tmp_path / "levels.csv").write_text(f"{HEAD}{line}\n")

    done = run("levels", tmp_path / "levels.csv", "--record", drill(tmp_path, "one"), "--accept")

    assert done.exit_code == 1
    assert said in done.output and "nothing was taken in" in done.output


def test_a_drill_that_is_like_no_other_has_nothing_to_share(tmp_path: Path) -> None:
    done = run("levels", "--record", drill(tmp_path, "one"), "--to", tmp_path / "levels.csv")

    assert done.exit_code == 1
    assert "is like no other" in done.output


def test_it_wants_a_table_to_read_or_one_to_write(tmp_path: Path) -> None:
    assert run("levels", "--record", drill(tmp_path, "one")).exit_code == 2


def test_what_was_granted_at_the_screen_is_shared(tmp_path: Path, school: Path) -> None:
    """The event of the screen, not one made for this test."""
    one = drill(tmp_path, "one")
    record = Record.open(one)
    ref = ref_of(record, 1)
    event = LevelGranted(ref, "supervised", "bench_drills", "plain", "hole", DAY + 400_000, "a1")
    record_events(record, record.restore(), (event,))
    record.close()

    done = run("levels", "--record", one, "--to", tmp_path / "levels.csv", "--school", school)

    assert "Levels of drills alike (bench_drills): 1" in done.output
