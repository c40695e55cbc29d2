"""Days without a check of the day: only those that the log holds from their beginning."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from kiosk.core.events import Entry, Event, Noted, PreUsePassed
from kiosk.core.report import Log, report
from kiosk.core.units import Moment
from tests.recording import plan_of, started

DAY_US = 86_400_000_000
HOUR_US = DAY_US // 24
CHECK, NOTE = PreUsePassed("a1"), Noted("a1", "n1", "near_miss", "swarf", "d")
TURN = started(plan_of("key_tag"))
A_DAY = (CHECK, NOTE, TURN, TURN)


def entries(*days: tuple[Event, ...]) -> list[Entry]:
    """One event an hour from the morning of each day on, numbered from 1."""
    timed = [
        (day * DAY_US + (8 + hour) * HOUR_US, event)
        for day, events in enumerate(days)
        for hour, event in enumerate(events)
    ]
    return [Entry(n, Moment("b", us, us, 2), event) for n, (us, event) in enumerate(timed, 1)]


def days_of(kept: Iterable[Entry]) -> tuple[int, int]:
    """Days of use, and those of them named as without a check."""
    (drill,) = report((Log(kept),)).drills
    return drill.days, drill.unlooked


@pytest.mark.parametrize("cut", range(len(A_DAY)))
def test_a_day_that_is_cut_is_no_day_without_a_check(cut: int) -> None:
    """Its check may be among the lines that retention or a shorter span took away."""
    assert days_of(entries(A_DAY, A_DAY)[cut:]) == (2, 0)


def test_a_whole_day_without_a_check_is_named_after_a_day_that_is_cut() -> None:
    kept = entries(A_DAY, (TURN, TURN), A_DAY)[2:]

    assert days_of(kept) == (3, 1)


def test_the_first_day_of_a_record_is_held_from_its_beginning() -> None:
    assert days_of(entries((TURN,), A_DAY)) == (2, 1)


def test_a_day_with_lines_missing_before_its_first_use_is_no_day_without_a_check() -> None:
    whole = entries(A_DAY, A_DAY, A_DAY, (TURN,))

    assert days_of([*whole[:4], *whole[6:]]) == (4, 1)  # the last day's check was never there
