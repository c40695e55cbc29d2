"""What `pillarside report` says on the console, and of downloads that are damaged."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from kiosk.export.download import EVENTS
from tests.cli.conftest import Run


@pytest.fixture
def taken(run: Run, record: Path, stick: Path) -> Path:
    """A folder with one download of 35 events."""
    done = run("download", "--all", "--record", record, "--to", stick)
    assert done.exit_code == 0, done.output
    return stick


def events_in(folder: Path) -> Path:
    (found,) = folder.glob(f"*/{EVENTS}")
    return found


def damage(folder: Path, number: int, old: bytes, new: bytes) -> None:
    """Change the bytes of one line."""
    path = events_in(folder)
    lines = path.read_bytes().splitlines(keepends=True)
    assert old in lines[number - 1]
    lines[number - 1] = lines[number - 1].replace(old, new, 1)
    path.write_bytes(b"".join(lines))


def test_it_says_what_was_read_before_what_was_written(
    run: Run, taken: Path, tmp_path: Path
) -> None:
    done = run("report", taken, "--to", tmp_path / "to")

    first, page, book = done.stdout.splitlines()
    assert first == "Read: 1 download, 1 record of drill-1, 35 events."
    assert (page[-11:], book[-11:], done.stderr) == ("report.html", "report.xlsx", "")


def test_overlapping_downloads_are_counted_and_their_events_once(
    run: Run, taken: Path, tmp_path: Path
) -> None:
    shutil.copytree(events_in(taken).parent, taken / "again")

    done = run("report", taken, "--to", tmp_path / "to")

    assert "Read: 2 downloads, 1 record of drill-1, 35 events." in done.stdout


def test_a_record_is_said_to_be_one(run: Run, record: Path, tmp_path: Path) -> None:
    done = run("report", "--record", record, "--to", tmp_path / "to")

    assert "Read: 1 record of drill-1, 35 events." in done.stdout


@pytest.mark.parametrize(
    ("old", "new"),
    [(b'"prev":"', b'"prev":"0'), (b'"us":', b'"us":1'), (b'"kind":', b'"kind"'), (b"{", b"\x00")],
)
def test_a_damaged_line_is_named_once_as_verify_names_it(
    run: Run, taken: Path, tmp_path: Path, old: bytes, new: bytes
) -> None:
    damage(taken, 20, old, new)

    done = run("report", taken, "--to", tmp_path / "to")

    (line,) = done.stderr.splitlines()
    assert line.endswith(": event 20 is not what was recorded.")
    assert "event 20 " in run("verify", events_in(taken).parent).stderr
    page = (tmp_path / "to" / "report.html").read_text("utf-8")
    assert page.count("is not what was recorded") == 2  # the remark, and the table of records
    assert "is missing" not in page


def test_lines_cut_off_are_said_to_be_missing(run: Run, taken: Path, tmp_path: Path) -> None:
    path = events_in(taken)
    path.write_bytes(b"".join(path.read_bytes().splitlines(keepends=True)[:-1]))

    done = run("report", taken, "--to", tmp_path / "to")

    assert done.stderr.endswith(": event 35 is missing.\n")
