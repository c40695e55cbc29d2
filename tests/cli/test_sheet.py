"""`pillarside sheet`: made of the files, and of what was made and set at a kiosk's screen."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.core.events import DatumSet, Event, JobHoleAdded, JobMade
from kiosk.store import Record
from tests.cli.conftest import Run
from tests.recording import Playing

MADE: tuple[Event, ...] = (
    JobMade("made_1", "8b", "mild_steel", "bar", 6000, 40000, 120000, "a1"),
    JobHoleAdded("made_1", "hole_1", "twist", 8000, 0, 2, "a1"),
    DatumSet("run_down", 10_000, "a1"),
)


@pytest.fixture
def made(record: Path) -> Path:
    """A record with a job made and a datum set at the screen."""
    opened = Record.open(record)
    Playing(opened, boot="boot2").happens(*MADE)
    opened.close()
    return record


def test_a_card_of_a_job_made_at_the_screen(run: Run, made: Path, tmp_path: Path) -> None:
    words = ("--machine", "drill-1", "--job", "made_1", "--record", made, "--to", tmp_path)

    done = run("sheet", "card", *words, "--language", "pl")

    assert done.exit_code == 0, done.output
    page = (tmp_path / "card-drill-1-made_1.html").read_text("utf-8")
    assert 'lang="pl"' in page
    assert "8 mm" in page.replace("\xa0", " ")
    assert (tmp_path / "card-drill-1-made_1.pdf").read_bytes().startswith(b"%PDF")


def test_what_was_set_at_the_screen_is_on_the_sheet(run: Run, made: Path, tmp_path: Path) -> None:
    words = ("--machine", "drill-1", "--record", made, "--to", tmp_path)

    assert run("sheet", "commissioning", *words).exit_code == 0

    page = (tmp_path / "commissioning-drill-1.html").read_text("utf-8").replace("\xa0", " ")
    assert "10 s" in page


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("wall",),
            "--machine is missing; allowed: drill-1, drill-2, drill-3; "
            "name the drill: --machine drill-1",
        ),
        (
            ("card", "--machine", "drill-1"),
            "--job is missing; allowed: hook_bar, key_tag, peg_board, pen_block, shelf_bracket; "
            "name the job: --job hook_bar",
        ),
    ],
)
def test_what_is_left_out_is_named_with_what_is_allowed_and_what_to_do(
    run: Run, record: Path, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    done = run("sheet", *words, "--record", record, "--to", tmp_path / "made")

    assert done.exit_code == 1
    assert done.output == f"Error: {said}\n"
    assert not (tmp_path / "made").exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("card", "--machine", "drill-1", "--job", "tag"), "no job is called 'tag'; there are"),
        (("wall", "--machine", "drill-9"), "drill-9"),
        (("wall", "--machine", "drill-1", "--language", "xx"), "there are cy, en, pl, uk"),
    ],
)
def test_what_is_not_there_is_said_with_what_is(
    run: Run, record: Path, words: tuple[str, ...], said: str
) -> None:
    done = run("sheet", *words, "--record", record)

    assert done.exit_code != 0
    assert said in done.output
    assert done.output.count("\n") <= 2
