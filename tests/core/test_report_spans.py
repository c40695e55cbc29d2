"""Use over time is shown by days, weeks, months or years: never by two of them at once."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from kiosk.core.events import Entry, SessionStarted
from kiosk.core.report import LEAST, Log, Report, report
from kiosk.core.report.small import MOST_ROWS, monday_of
from kiosk.core.units import Moment
from tests.recording import plan_of, started

DAY_US = 86_400_000_000
FIRST = (date(2026, 9, 7) - date(1970, 1, 1)).days  # a Monday


def over(days: int) -> Report:
    """Just enough pupils have a turn on each of so many days."""
    entries = [
        Entry(day * LEAST + n + 1, Moment("b", 1, (FIRST + day) * DAY_US + n, 2), turn(n))
        for day in range(days)
        for n in range(LEAST)
    ]
    return report((Log(entries),))


def turn(n: int) -> SessionStarted:
    return started(plan_of("key_tag"), pupil=f"p{n}")


@pytest.mark.parametrize(
    ("days", "span", "first"),
    [
        (1, "day", "2026-09-07"),
        (MOST_ROWS, "day", "2026-09-07"),
        (MOST_ROWS + 1, "week", "2026-09-07"),
        (7 * MOST_ROWS + 1, "month", "2026-09"),
        (31 * MOST_ROWS + 1, "year", "2026"),
    ],
)
def test_it_is_by_the_finest_that_leaves_few_enough_rows(days: int, span: str, first: str) -> None:
    found = over(days)

    assert found.span == span
    assert found.use_by_span[0].of == (first,)
    assert len(found.use_by_span) <= MOST_ROWS
    assert sum(row.sessions for row in found.use_by_span) == days * LEAST


def test_a_week_is_named_by_its_monday() -> None:
    monday = date(2026, 9, 7)

    for n in range(7):
        assert monday_of((monday + timedelta(days=n)).isoformat()) == "2026-09-07"
    assert monday_of("0001-01-01") == "0001-01-01"


def test_weeks_with_few_pupils_are_put_together_as_days_are() -> None:
    entries = [
        Entry(n + 1, Moment("b", 1, (FIRST + 7 * week) * DAY_US, 2), turn(n))
        for week in range(MOST_ROWS + 2)
        for n in range(2 if week % 2 else LEAST)
    ]

    rows = report((Log(entries),)).use_by_span

    assert all(row.pupils >= LEAST for row in rows)
