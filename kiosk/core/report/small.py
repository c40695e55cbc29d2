"""No figure that singles out one pupil: small groups are shown together, by one stated rule.

A day, a group, a level or a step with fewer than `LEAST` different pupils behind it is not shown
by itself. Days, groups and levels are put together with the next smallest until `LEAST` pupils
stand behind the row; a step's times and what was granted are left out. Five is common practice
where figures of schools are published; the project has no source that binds it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from kiosk.core.report.tally import Use

LEAST = 5
MOST_ROWS = 40  # as many as a page's chart has room for


@dataclass(frozen=True)
class UseRow:
    """What was done on some days or by some groups: one, or as many as had to be put together."""

    of: tuple[str, ...]
    pupils: int
    lessons: int
    sessions: int
    holes: int


def monday_of(day: str) -> str:
    """The Monday of a day's week (ISO 8601 has weeks begin there)."""
    found = date.fromisoformat(day)
    return (found - timedelta(days=min(found.weekday(), found.toordinal() - 1))).isoformat()


SPANS: Mapping[str, Callable[[str], str]] = {
    "day": lambda day: day,
    "week": monday_of,
    "month": lambda day: day[:7],
    "year": lambda day: day[:4],
}
"""What use over time can be shown by, the finest first."""


def spread(days: Mapping[str, Use]) -> tuple[str, Mapping[str, Use]]:
    """Use by the finest span that leaves a row for each to look at, and which span that is.

    Never by two of them: days taken from their month would leave the few that were put together.
    """
    for span, of in SPANS.items():
        found = _by(days, of)
        if len(found) <= MOST_ROWS:
            return span, found
    return span, found


def _by(days: Mapping[str, Use], of: Callable[[str], str]) -> Mapping[str, Use]:
    found: defaultdict[str, Use] = defaultdict(Use)
    for day, use in days.items():
        found[of(day) if day else day].add(use)
    return found


def put_together(uses: Mapping[str, Use]) -> tuple[UseRow, ...]:
    """A row for each of them in their order, small ones together in the last.

    No row at all where fewer than `LEAST` pupils stand behind all of them.
    """
    by_size = sorted(uses, key=lambda one: (len(uses[one].pupils), one))
    joined, names = Use(), list[str]()
    for name in by_size:
        if len(uses[name].pupils) >= LEAST and (not names or len(joined.pupils) >= LEAST):
            break
        joined.add(uses[name])
        names.append(name)
    if names and len(joined.pupils) < LEAST:
        return ()
    rows = tuple(_row((name,), uses[name]) for name in sorted(uses) if name not in names)
    return (*rows, _row(tuple(sorted(names)), joined)) if names else rows


def _row(of: tuple[str, ...], use: Use) -> UseRow:
    return UseRow(of, len(use.pupils), use.lessons, use.sessions, use.holes)
