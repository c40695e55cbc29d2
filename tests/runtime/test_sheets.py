"""A printed sheet at the running kiosk's screen: read, then put on a stick by a child process."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest

from kiosk.core.events import SheetAccepted, SheetAsked
from kiosk.core.inputs import Act, AskAdult
from kiosk.core.view import View
from kiosk.export.sheets.carrying import FOLDER
from tests.core.test_jobs_made import STEEL
from tests.runtime.test_start import People, kiosk, recorded

MADE = f"{STEEL} twist:8000 0 2"


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    """A folder that stands for the stick."""
    at = tmp_path / "stick"
    at.mkdir()
    return at


def at_the_menu(people: People) -> None:
    people.touch(AskAdult("menu"))
    people.sign()


def make_a_job(people: People) -> None:
    """A job made at the screen, question by question."""
    people.touch(Act("jobs_made"))
    people.touch(Act("make"))
    group = people.see(lambda v: v.title == "Which group is it for?", "the groups").choices[0]
    assert isinstance(group.touch, Act)
    people.touch(group.touch)
    said = group.touch.about
    for word in MADE.split()[1:]:
        said = f"{said} {word}"
        people.touch(Act("make", said))
    people.touch(Act("make_keep", said))
    people.touch(Act("menu"))


def read(people: People, sheet: str) -> View:
    people.touch(Act("sheets"))
    if sheet.startswith("card "):
        people.touch(Act("sheet", "card"))
    people.touch(Act("sheet", sheet))
    wanted = Act("sheet_out", sheet)
    return people.see(lambda v: wanted in [b.touch for b in v.buttons], "what the sheet says")


def put_out(people: People, sheet: str) -> View:
    people.touch(Act("sheet_out", sheet))
    return people.see(lambda v: v.screen == "sheet" and not v.progress and ended(v), "the end")


def ended(view: View) -> bool:
    return any(b.live for b in view.buttons) and "Leave the stick" not in str(view.lines)


def test_the_card_of_a_job_made_at_the_screen_is_read_and_taken_once_a_stick_is_there(
    tmp_path: Path, stick: Path
) -> None:
    pocket = stick.with_name("in a pocket")
    with kiosk(tmp_path, download_to=stick) as people:
        at_the_menu(people)
        make_a_job(people)
        shown = read(people, "card made_1")
        stick.rename(pocket)
        first = put_out(people, "card made_1")
        pocket.rename(stick)
        second = put_out(people, "card made_1")

    assert shown.title.endswith("Lesson card")
    assert "Job 1: mild steel · Drill 1" in shown.lines
    assert first.lines == ("The stick was taken out. Nothing was lost. Put it in and try again.",)
    assert second.lines[0] == "The sheet is on the stick, to read and to print."
    page = (stick / FOLDER / "card-drill-1-made_1.html").read_text("utf-8")
    assert "Job 1: mild steel" in page
    assert len(pypdfium2.PdfDocument(stick / FOLDER / "card-drill-1-made_1.pdf")) > 0
    assert [e.sheet for e in recorded(tmp_path, SheetAsked)] == ["card made_1"]
    assert [e.sheet for e in recorded(tmp_path, SheetAccepted)] == ["card made_1"] * 2
