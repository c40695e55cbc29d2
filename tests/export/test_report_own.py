"""Where several records are told together, the page says that each has its own span."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.events import Entry, KioskStarted
from kiosk.core.report import Log, report
from kiosk.core.units import Moment
from kiosk.export.report import Made, report_page, told_by

ROOT = Path(__file__).parents[2]
SAYS = "Of each record these are its own"


def page(span: str, drills: int) -> str:
    """A report over so many records, a month apart."""
    loaded = load(ROOT / "sequences")
    assert loaded.content is not None
    month_us = 30 * 86_400_000_000
    logs = (
        Log((Entry(1, Moment("b", 1, n * month_us, 2), KioskStarted(f"drill-{n}", "0", "first")),))
        for n in range(1, drills + 1)
    )
    made = Made(span, "pillarside", Moment("b", 1, 1, 2))
    return report_page(report(logs), told_by(loaded.content, loaded.words, {}), made)


@pytest.mark.parametrize(
    ("span", "own"),
    [("week", "last seven days"), ("term", "last 14 weeks"), ("year", "last 366 days")],
)
def test_a_span_of_several_records_is_said_to_be_each_one_s_own(span: str, own: str) -> None:
    assert f"{SAYS} {own}, up to its last event." in page(span, 2)


@pytest.mark.parametrize(("span", "drills"), [("week", 1), ("all", 2), ("week", 0)])
def test_it_is_not_said_of_one_record_or_of_everything(span: str, drills: int) -> None:
    assert SAYS not in page(span, drills)
