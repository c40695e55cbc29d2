"""Reports over random weeks and over the recorded term: sums, remarks, pages, paper."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import fields
from pathlib import Path
from typing import get_type_hints

import html5lib
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo.recorded import unpacked
from kiosk.content import load
from kiosk.core.events import (
    RECORDED_KINDS,
    Entry,
    Event,
    HoleDrilled,
    NotRight,
    SessionStarted,
    StepDone,
)
from kiosk.core.model import Level
from kiosk.core.report import LEAST, Known, Log, Report, report
from kiosk.core.units import Moment
from kiosk.export.report import Made, Story, Told, report_page, story, told_by
from kiosk.export.sheets import pdf_of

ROOT = Path(__file__).parents[2]
LOADED = load(ROOT / "sequences")
MADE = Made("week", "pillarside", Moment("boot", 1, 1_788_768_000_000_000, 2))
MM = 72 / 25.4
DPMM = 3  # dots a millimetre of a page's picture
EDGE_MM = 9  # what a printer can't reach is less: common practice

words = st.sampled_from(("alpha", "beta", "gamma", "starter", "spindle", "isolator", "pupil"))
readings = st.sampled_from(("off", "on", "unknown", "fault"))
levels = st.sampled_from([level.word for level in Level])
numbers = st.integers(-3, 2_000_000)
FIELDS = {"level": levels, "reading": readings, "until": st.integers(0, 30_000)}


def events(kind: type[Event]) -> st.SearchStrategy[Event]:
    """Any event of a kind: whole numbers and words where it asks for them."""
    hints = get_type_hints(kind)
    by_type = {int: numbers, str: words}
    made = {
        f.name: FIELDS[f.name] if f.name in FIELDS else by_type.get(hints[f.name], st.tuples(words))
        for f in fields(kind)
    }
    return st.builds(kind, **made)


@st.composite
def weeks(draw: st.DrawFn) -> tuple[Entry, ...]:
    """Any events in any order, with boots and clocks that jump."""
    often = (SessionStarted, HoleDrilled, StepDone, NotRight) * 8
    kinds = [events(kind) for kind in (*RECORDED_KINDS.values(), *often)]
    told = draw(st.lists(st.one_of(kinds), max_size=60))
    us, boot, made = 0, "a", list[Entry]()
    for seq, event in enumerate(told, 1):
        boot = draw(st.sampled_from((boot, boot, boot, "b", "c")))
        us += draw(st.integers(0, 120_000_000))
        wall_us = draw(st.integers(0, 4_000_000_000_000_000))
        made.append(Entry(seq, Moment(boot, us, wall_us, draw(st.integers(0, 2))), event))
    return tuple(made)


def figures_without_a_cell(told: Story) -> list[str]:
    """Figures of remarks that are in no cell or head of the table the remark names."""
    tables = {table.id: table for table in told.tables}
    missing = []
    for remark in told.remarks:
        table = tables[remark.table]
        cells = [str(cell) for row in (table.heads, *table.rows) for cell in row]
        there = {number for cell in cells for number in re.findall(r"\d+", cell)}
        missing += [f"{n} of {remark}" for n in re.findall(r"\d+", remark.text) if n not in there]
    return missing


def test_any_week_can_be_told_and_its_sums_add_up(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    most = 250 if full else 15

    settings(max_examples=most)(given(st.lists(weeks(), max_size=2))(can_be_told))()

    sum_up(f"report: {most} random weeks told, sums add up, every figure of a remark in its table")


def can_be_told(logs: list[tuple[Entry, ...]]) -> None:
    """What any week's report has to keep to."""
    found = report(Log(entries, "abc") for entries in logs)
    told = story(found, Told())

    every = [entry.event for entries in logs for entry in entries]
    sessions = sum(isinstance(event, SessionStarted) for event in every)
    assert found.entries == len(every)
    assert found.total("sessions") == sum(d.sessions for d in found.drills) == sessions
    assert found.drilled == sum(isinstance(event, HoleDrilled) for event in every)
    for rows in (found.use_by_span, found.use_by_group, found.use_by_level):
        assert not rows or sum(row.sessions for row in rows) == sessions
        assert not rows or sum(row.holes for row in rows) == found.drilled
    assert all(row.times is None or row.times.slow <= row.times.times for row in found.steps)
    assert figures_without_a_cell(told) == []
    assert report_page(found, Told(), MADE)


@given(weeks())
@settings(max_examples=15)
def test_no_row_stands_for_less_than_so_many_pupils(entries: tuple[Entry, ...]) -> None:
    found = report((Log(entries),))

    used = [row for row in (*found.use_by_span, *found.use_by_group) if row.sessions]
    assert all(row.pupils >= LEAST for row in used)


# --- the recorded term ----------------------------------------------------------------------------


@pytest.fixture(scope="module")
def term() -> Report:
    branches = unpacked()
    return report((Log(b.entries, b.log, b.machine) for b in branches), Known())


@pytest.fixture(scope="module")
def told() -> Told:
    assert LOADED.content is not None
    return told_by(LOADED.content, LOADED.words, {"8b": "Year 8 blue"})


@pytest.fixture(scope="module")
def page(term: Report, told: Told) -> str:
    return report_page(term, told, MADE)


@pytest.fixture(scope="module")
def paper(full: bool, page: str, told: Told) -> Iterator[pypdfium2.PdfDocument]:
    """The term on paper with `--full`; else the drill with the fewest events."""
    small = min(unpacked(), key=lambda branch: len(branch.entries))
    short = report_page(report((Log(small.entries, small.log),)), told, MADE)
    document = pypdfium2.PdfDocument(pdf_of(page if full else short))
    yield document
    document.close()


def test_every_figure_of_a_remark_is_in_its_table(term: Report, told: Told) -> None:
    found = story(term, told)

    assert len(found.remarks) > 10
    assert figures_without_a_cell(found) == []


def test_the_page_is_valid_and_asks_for_nothing(page: str) -> None:
    html5lib.HTMLParser(strict=True).parse(page)  # raises at the first mistake

    plain = page.replace("http://www.w3.org/2000/svg", "")
    assert not re.search(r"https?:|//[a-z]|src=|url\(|@import|<script|<link", plain)


def test_each_chart_stands_over_a_table_of_its_figures(page: str, term: Report, told: Told) -> None:
    charts = re.findall(r'<div class="chart".*?</svg></div>\s*<div class="wide"', page, re.DOTALL)

    assert len(charts) == page.count("<svg") >= 6
    bars = {b for table in story(term, told).tables if table.chart for _, b in table.bars}
    drawn = {int(n) for n in re.findall(r'font-weight="700"[^>]*>(\d+)<', page)}
    assert drawn <= bars


def test_nothing_on_paper_is_cut(paper: pypdfium2.PdfDocument) -> None:
    """No letter and no dot of ink comes near the edge; only the page's number is lower."""
    for sheet in paper:
        assert sheet.get_width() == pytest.approx(210 * MM, abs=1)
        picture = sheet.render(scale=DPMM / MM, grayscale=True).to_pil()
        wide, high = picture.size
        edge, low = EDGE_MM * DPMM, 4 * DPMM
        for box in (
            (0, 0, edge, high),
            (wide - edge, 0, wide, high),
            (0, 0, wide, edge),
            (0, high - low, wide, high),
        ):
            assert picture.crop(box).getextrema() == (255, 255), box
        assert picture.getextrema()[0] < 60  # ink, also in black and white


def test_in_black_and_white_all_can_be_read(page: str) -> None:
    """Contrast of WCAG 2.2 1.4.3 for every colour of letters, which are on white or chalk."""
    inks = {"#1D2B36", "#0F5C63"}
    letters = set(re.findall(r"(?:^|[ ;{\"])(?:color: |fill=\")(#[0-9A-F]{6})", page))

    assert {ink for ink in letters if contrast(ink) < 4.5} == set()
    assert inks <= {*letters, *re.findall(r"#[0-9A-F]{6}", page)}
    bars = re.findall(r"<polygon [^>]*>", page)
    assert bars and all('stroke="#1D2B36"' in bar for bar in bars)


def contrast(colour: str, paper: str = "#F4F2EC") -> float:
    """The contrast of a colour on chalk."""
    one, other = sorted((luminance(colour), luminance(paper)))
    return (other + 0.05) / (one + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 has it."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
