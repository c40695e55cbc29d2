"""`pillarside report`: on a record and on downloads alike."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner

from kiosk.cli import group
from kiosk.store import Record
from tests.recording import Playing, play_lesson


@pytest.fixture
def record(tmp_path: Path) -> Path:
    opened = Record.open(tmp_path / "record.sqlite")
    play_lesson(Playing(opened))
    opened.close()
    return opened.path


def run(*words: object) -> str:
    done = CliRunner().invoke(group, [str(word) for word in words])
    assert done.exit_code == 0, done.output
    return done.output


def counts(folder: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every sheet but the remarks and the record's own."""
    book = openpyxl.load_workbook(folder / "report.xlsx")
    names = [n for n in book.sheetnames if n not in ("Remarks", "Record")]
    return {name: list(book[name].iter_rows(values_only=True)) for name in names}


def test_a_download_gives_the_same_report_as_the_record(record: Path, tmp_path: Path) -> None:
    run("report", "--record", record, "--to", tmp_path / "a")
    run("download", "--all", "--record", record, "--to", tmp_path)

    run("report", *tmp_path.glob("PILLARSIDE-*"), "--to", tmp_path / "b")

    assert counts(tmp_path / "a")["Holes by bit"][1] == ("plastics bit", 1)
    assert counts(tmp_path / "a") == counts(tmp_path / "b")


def test_overlapping_downloads_count_each_event_once(record: Path, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    for _ in range(2):
        run("download", "--all", "--record", record, "--to", stick)

    run("report", stick, "--to", tmp_path / "twice")
    run("report", "--record", record, "--to", tmp_path / "once")

    assert counts(tmp_path / "twice")["Holes by bit"] == counts(tmp_path / "once")["Holes by bit"]
    chain = openpyxl.load_workbook(tmp_path / "twice" / "report.xlsx")["Record"]
    assert [cell.value for cell in chain[2]][-2:] == [36, "holds"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--record", "nowhere.sqlite"), "name the kiosk's record with --record FILE"),
        ((".",), "no download in there"),
    ],
)
def test_where_nothing_is_it_says_what_to_do(
    words: tuple[str, ...], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)

    sequences = Path(__file__).parents[2] / "sequences"
    done = CliRunner().invoke(group, ["report", *words, "--sequences", str(sequences)])

    assert done.exit_code != 0
    assert said in done.output
