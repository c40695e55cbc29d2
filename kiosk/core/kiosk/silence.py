"""Silent hours: for a time nobody begins, since an exam or a class nearby needs quiet.

A turn under way goes on to its end. The time is counted from the touch, and anew after a
restart, since nobody knows how long the power was off. An adult can end it. The timetable's hours
end by themselves; an adult can end them only where the clock that they go by may be wrong.
"""

from __future__ import annotations

from kiosk.core.events import HoursOverruled, PageOpened, SilenceAsked, SilenceEnded
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.hours import is_sure, span_now
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

QUIET_MIN = (15, 30, 45, 60, 90, 120, 180)


def silence_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from an adult's touch about silent hours; None if it is something else."""
    if not isinstance(touch, Act) or touch.what not in ("quiet", "quiet_end", "hours_wrong"):
        return None
    adult = kiosk.desk.signed
    if not adult:
        return NOTHING
    if not is_free(kiosk):
        return refused("session_open")
    if touch.what == "hours_wrong":
        return _overruled(shop, kiosk, adult, now)
    if touch.what == "quiet_end":
        over = (SilenceEnded(adult), PageOpened("menu"))
        return took(*over) if kiosk.care.silence else NOTHING
    if not touch.about:
        return took(PageOpened("quiet"))
    if touch.about not in {str(n) for n in QUIET_MIN}:
        return NOTHING
    return took(SilenceAsked(adult, int(touch.about) * 60), PageOpened("menu"))


def _overruled(shop: Shop, kiosk: Kiosk, adult: str, now: Moment) -> Decided:
    span = span_now(shop, kiosk, now)
    if span is None or is_sure(now):
        return NOTHING
    return took(HoursOverruled(adult, span.end_s), PageOpened("menu"))
