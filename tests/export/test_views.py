"""The table, the workbook and the page: views of the events that open anywhere, safely."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl.utils.escape import unescape

from kiosk.core.report import NoteRow, Report
from kiosk.export import About
from kiosk.export.folder import Folder
from kiosk.export.report import Made, Told, report_page, story
from kiosk.export.rows import TRIGGERS, Row, guarded, row_of, utc
from kiosk.export.table import Table
from kiosk.export.workbook import Workbook
from tests.export.conftest import MADE, Take
from tests.recording import Playing

ABOUT = About("0" * 32, "week", 1, 2, "0" * 64, "f" * 64, "drill-1", "pillarside", "0001", MADE)
risky = st.builds(
    lambda first, rest: first + rest,
    st.sampled_from((*TRIGGERS, "", "http://", "mailto:", "{=")),
    st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=20),
)
many = settings(
    max_examples=40,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    deadline=None,
)


def row(text: str) -> Row:
    return Row(1, text, text, text, text, text, text, text, 1.5, text)


@given(risky)
def test_no_cell_of_the_table_is_a_formula(text: str) -> None:
    cell = guarded(text)

    assert not cell.startswith(TRIGGERS)
    assert cell.removeprefix("'") == text or cell == text


@many
@given(risky)
def test_the_table_reads_back_as_it_was_but_for_the_guard(tmp_path: Path, text: str) -> None:
    data = written(tmp_path, "t.csv", lambda part: Table(part).add(row(text)))

    assert data.startswith(b"\xef\xbb\xbfentry,")
    head, body = csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""))
    assert head == list(Row._fields)
    assert body[1:7] == [guarded(text)] * 6


def test_the_table_ends_its_lines_as_spreadsheets_expect(tmp_path: Path) -> None:
    data = written(tmp_path, "t.csv", lambda part: Table(part).add(row("a")))

    assert data.count(b"\r\n") == data.count(b"\n") == 2


@many
@given(risky)
def test_no_cell_of_the_workbook_is_a_formula_or_link_and_each_reads_back(
    tmp_path: Path, text: str
) -> None:
    data = written(tmp_path, "w.xlsx", lambda part: fill(part, text))

    with zipfile.ZipFile(io.BytesIO(data)) as book:
        sheets = [book.read(n).decode() for n in book.namelist() if "worksheets/" in n]
    assert len(sheets) == 3
    assert not any("<f>" in sheet or "<hyperlink" in sheet for sheet in sheets)
    cells = openpyxl.load_workbook(io.BytesIO(data))["Events"]
    assert unescape(cells.cell(2, 5).value or "") == text
    assert cells.cell(2, 1).value == 1


def fill(part, text: str) -> None:  # type: ignore[no-untyped-def]
    with Workbook(part, Report()) as book:
        book.add(row(text))
        book.finish()


def written(tmp_path: Path, name: str, write) -> bytes:  # type: ignore[no-untyped-def]
    with Folder.open(tmp_path) as folder, folder.writing(name) as part:
        write(part)
        part.finish()
    data = (tmp_path / f"{name}.part").read_bytes()
    (tmp_path / f"{name}.part").unlink()
    return data


def test_the_workbook_goes_on_in_a_further_sheet_when_one_is_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("kiosk.export.workbook.MOST_ROWS", 2)

    def fill_five(part) -> None:  # type: ignore[no-untyped-def]
        with Workbook(part, Report()) as book:
            for _ in range(5):
                book.add(row("a"))
            book.finish()

    data = written(tmp_path, "w.xlsx", fill_five)

    book = openpyxl.load_workbook(io.BytesIO(data))
    assert book.sheetnames == ["Remarks", "All together", "Events", "Events 2", "Events 3"]
    assert [book[n].max_row for n in book.sheetnames[2:]] == [3, 3, 2]


def test_the_views_of_a_lesson_have_every_event(take: Take, playing: Playing) -> None:
    folder = take()
    count = playing.record.head[0]

    with (folder / "events.csv").open(encoding="utf-8-sig", newline="") as file:
        table = list(csv.DictReader(file))
    cells = openpyxl.load_workbook(folder / "week.xlsx")["Events"]

    assert [int(r["entry"]) for r in table] == list(range(1, count + 1))
    assert cells.max_row == count + 1
    assert table[0]["event"] == "kiosk started"
    assert table[0]["details"] == "after: first; content: ; machine: drill-1; software: 0.1.0"


class Line(NamedTuple):
    seq: int
    wall_us: int
    quality: int
    prev: str
    hash: str
    bytes: bytes


def test_a_clock_out_of_every_calendar_leaves_the_time_empty() -> None:
    data = b'{"body":{"jobs":["a","b"]},"boot":"b","kind":"lesson_opened","us":1500000}'

    made = row_of(Line(1, 10**18, 0, "", "h", data))

    assert (made.time_utc, made.time_local, made.clock) == ("", "", "not set")
    assert (made.details, made.since_boot_s) == ("jobs: a, b", 1.5)


def test_a_time_is_told_in_utc() -> None:
    assert utc(1_777_800_000_000_000) == "2026-05-03 09:20:00"


# --- the page -----------------------------------------------------------------------------------


class Checker(HTMLParser):
    """Every tag closed in order, and what is loaded from elsewhere."""

    empty = ("meta", "link", "br", "img")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.loaded: list[str] = []
        self.texts: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.loaded += [v or "" for n, v in attrs if n in ("src", "href")]
        if tag not in self.empty:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def page(report: Report) -> str:
    return report_page(report, Told(), Made("week", "pillarside", MADE), ABOUT)


def test_the_page_opens_without_a_network_and_is_well_formed(take: Take) -> None:
    text = (take() / "report.html").read_text("utf-8")

    checked = Checker(text)

    assert checked.open == []
    assert all(target.startswith("#") for target in checked.loaded)
    assert not re.search(r"url\(|@import|https?:", text.replace("http://www.w3.org/2000/svg", ""))
    assert '<html lang="en">' in text


def test_the_page_tells_the_counts(take: Take, playing: Playing) -> None:
    last = playing.record.head[0]

    words = " ".join(" ".join(Checker((take() / "report.html").read_text()).texts).split())

    assert "lessons opened 1" in words
    assert "holes drilled 1" in words
    assert "bit broken 1" in words
    assert "isolator on 1" in words
    assert "It is not a safety device" in words
    assert f"Events 1 to {last}" in words


def test_the_page_of_nothing_says_so() -> None:
    assert "Nothing was recorded." in page(Report())


def test_a_word_that_looks_like_a_tag_stays_a_word() -> None:
    odd = "<script>alert(1)</script>"

    text = page(Report(ranks={"interruptions": (((odd,), 1), (("other",), 1))}))

    assert "<script>" not in text
    assert text.count("&lt;script&gt;") == 2  # in the table and in its chart


def test_what_has_nothing_to_tell_is_left_out_and_what_asks_for_action_is_marked() -> None:
    quiet = {table.id for table in story(Report(), Told()).tables}
    note = (NoteRow("swarf", 1, 0, 0, "2026-05-04"),)
    runs = {"runs_without_ok": ((("starter",), 2),)}
    loud = {t.id: t for t in story(Report(notes_by_hazard=note, ranks=runs), Told()).tables}

    assert "runs" not in quiet
    assert loud["runs"].alert
    assert loud["notes"].rows == (("swarf", 1, 0, 0, "2026-05-04", 0, "seen to"),)
