"""Silent hours by the school's timetable, and a clock that may be wrong.

The timetable goes by the wall clock. One that is synchronised is believed. One that runs on from
before the power went is believed too, since silence is the careful side, but the screen says so,
and an adult who sees that it is wrong can end that stretch. One that was never set tells no time.
"""

from __future__ import annotations

from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import QuietSpan
from kiosk.core.units import Moment, day_named

NEVER_SET, SYNCHRONISED = 0, 2
SECOND_US = 1_000_000
DAY_S = 86_400


def is_silent(shop: Shop, kiosk: Kiosk, now: Moment) -> bool:
    """Whether nobody may begin: an adult has asked for silence, or the timetable has."""
    return kiosk.care.silence is not None or span_now(shop, kiosk, now) is not None


def span_now(shop: Shop, kiosk: Kiosk, now: Moment) -> QuietSpan | None:
    """The stretch of the timetable that holds now, if one does."""
    wall_s = now.wall_us // SECOND_US
    if now.quality == NEVER_SET:
        return None
    found = (s for s in shop.content.quiet if s.start_s <= wall_s < s.end_s)
    return next((s for s in found if not _is_overruled(kiosk, s, now)), None)


def _is_overruled(kiosk: Kiosk, span: QuietSpan, now: Moment) -> bool:
    """Whether an adult has said since the start that the clock is wrong; a sure one is not."""
    return not is_sure(now) and kiosk.care.overruled_s == span.end_s


def is_sure(now: Moment) -> bool:
    """Whether the wall clock is synchronised."""
    return now.quality == SYNCHRONISED


def is_unsure_of_hours(shop: Shop, now: Moment) -> bool:
    """Whether there are hours still to come that a doubtful clock keeps, or can't keep."""
    wall_s = now.wall_us // SECOND_US
    return not is_sure(now) and any(wall_s < span.end_s for span in shop.content.quiet)


def next_turn_of_hours(shop: Shop, now: Moment) -> int | None:
    """When hours next begin or end, in microseconds since boot; None if they never do."""
    wall_s = now.wall_us // SECOND_US
    turns = (at for s in shop.content.quiet for at in (s.start_s, s.end_s) if at > wall_s)
    first = min(turns, default=None)
    return None if first is None else now.us + first * SECOND_US - now.wall_us


def clock_text(wall_s: int, offset_s: int) -> str:
    """Hours and minutes as the school's clocks show them."""
    minutes = (wall_s + offset_s) % DAY_S // 60
    return f"{minutes // 60:02}:{minutes % 60:02}"


def date_text(wall_s: int, offset_s: int) -> str:
    """The day as the school's calendar shows it."""
    return day_named((wall_s + offset_s) // DAY_S)
