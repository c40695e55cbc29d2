"""When things happened: the wall clock as it must have been, and the day of each thing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from kiosk.core.units import Moment

Offsets = tuple[tuple[str, int], ...]
"""Boots with what their wall clock, once synchronised, was ahead of the time since boot, in µs."""

DayOf = Callable[[int], str]
"""The day of a wall clock in µs of UTC, where the school is; `YYYY-MM-DD`, empty if no calendar
has it."""

UNSET, RESTORED, SYNCHRONISED = 0, 1, 2
SECOND_US = 1_000_000
QUARTER_US = 900_000_000  # every zone's midnight falls on a quarter of an hour
NO_DAY = ""


@dataclass(frozen=True)
class ClockRemark:
    """About the wall clock at one entry: `stepped` by `by_us`, or `not_set` at a start."""

    seq: int
    what: str
    by_us: int = 0


Quarter = tuple[str, int]
"""A quarter of an hour of the wall clock, by its number, with an empty boot; as long as the clock
was not synchronised, the boot and a second since it began."""


def corrected(at: Moment, offsets: Mapping[str, int]) -> int | None:
    """The wall clock as it must have been, in µs of UTC; None where there is nothing better.

    Once the clock of a boot was synchronised, the time since boot tells when everything before
    it in that boot happened. For reports only: the record keeps what the clock said, and its
    order is that of its numbers.
    """
    if at.quality >= SYNCHRONISED or at.boot not in offsets:
        return None
    return at.us + offsets[at.boot]


def quarter_of(at: Moment) -> Quarter:
    """The quarter of an hour, or the second of a boot, that a moment lies in.

    The day of a second is found once it is known whether the boot's clock was set later.
    """
    if at.quality >= SYNCHRONISED:
        return "", at.wall_us // QUARTER_US
    return at.boot, at.us // SECOND_US


def day_in(quarter: Quarter, offsets: Mapping[str, int], day_of: DayOf) -> str:
    """The day of a quarter; empty where nothing tells the wall clock of its boot."""
    boot, number = quarter
    if not boot:
        return day_of(number * QUARTER_US)
    return day_of(number * SECOND_US + offsets[boot]) if boot in offsets else NO_DAY
