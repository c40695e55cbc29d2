"""The form of `silent_hours.yaml`."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.content.values import Day, WeekDay


@dataclass(frozen=True)
class QuietHoursForm:
    """On some days of the week, between two days, from one time to another."""

    days: tuple[WeekDay, ...]
    at: str  # such as `09:00 to 11:30`
    first: Day
    last: Day
    line: int = 0


@dataclass(frozen=True)
class QuietForm:
    """The file `silent_hours.yaml`."""

    zone: str
    hours: tuple[QuietHoursForm, ...]
    line: int = 0
