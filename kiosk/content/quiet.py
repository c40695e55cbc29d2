"""`silent_hours.yaml`: the days and times at which nobody begins, such as a week of exams.

Each line says on which days of the week, from when to when, and from which day to which; so it
ends by itself. What comes of it are stretches of UTC, since the kiosk's clock tells that.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from kiosk.content.library import Filed, Library
from kiosk.content.quiet_forms import QuietForm, QuietHoursForm
from kiosk.core.model import QuietSpan
from kiosk.core.problems import Place, Problem

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
LONGEST_DAYS = 366
_HOURS = re.compile(r"([01]\d|2[0-3]):[0-5]\d to ([01]\d|2[0-3]):[0-5]\d", re.ASCII)


def quiet_of(filed: Filed[QuietForm] | None) -> tuple[QuietSpan, ...]:
    """Every stretch of the timetable, the earliest first."""
    if filed is None:
        return ()
    zone = ZoneInfo(str(filed.form.zone))
    spans = (_span(day, hours, zone) for hours in filed.form.hours for day in _days(hours))
    return tuple(sorted(spans, key=lambda span: (span.start_s, span.end_s)))


def _days(hours: QuietHoursForm) -> Iterator[date]:
    first, last = (date.fromisoformat(str(day)) for day in (hours.first, hours.last))
    for n in range((last - first).days + 1):
        day = first + timedelta(days=n)
        if WEEK[day.weekday()] in hours.days:
            yield day


def _span(day: date, hours: QuietHoursForm, zone: ZoneInfo) -> QuietSpan:
    start, end = (datetime.combine(day, at, zone) for at in times_of(hours.at))
    offset = start.utcoffset() or timedelta()
    return QuietSpan(
        round(start.timestamp()), round(end.timestamp()), round(offset.total_seconds())
    )


def times_of(written: str) -> tuple[time, time]:
    """The two times of `09:00 to 11:30`."""
    start, end = (time.fromisoformat(part) for part in str(written).split(" to "))
    return start, end


def quiet_problems(library: Library) -> Iterator[Problem]:
    """A time zone that nobody knows, and hours that end before they begin."""
    if library.quiet is None:
        return
    file, form = library.quiet.file, library.quiet.form
    try:
        ZoneInfo(str(form.zone))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        place = Place(file, getattr(form.zone, "line", form.line))
        allowed = "a time zone that this computer knows, such as Europe/London"
        yield Problem(place, f"zone {str(form.zone)!r}", allowed)
    for hours in form.hours:
        yield from _hours(file, hours)


def _hours(file: str, hours: QuietHoursForm) -> Iterator[Problem]:
    place = Place(file, hours.line)
    if not _HOURS.fullmatch(str(hours.at)):
        yield Problem(place, f"at {str(hours.at)!r}", "two times such as 09:00 to 11:30")
        return
    start, end = times_of(hours.at)
    if not hours.days:
        yield Problem(place, "no days", ", ".join(WEEK))
    if start >= end:
        yield Problem(place, f"at {hours.at!s}", "a time, then a later one of the same day")
    first, last = (date.fromisoformat(str(day)) for day in (hours.first, hours.last))
    if not 0 <= (last - first).days < LONGEST_DAYS:
        found = f"first {hours.first!s}, last {hours.last!s}"
        yield Problem(place, found, f"last no earlier, and at most {LONGEST_DAYS} days in all")
