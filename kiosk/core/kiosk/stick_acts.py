"""What a signed-in adult does with a stick: takes a part of the record away."""

from __future__ import annotations

from kiosk.core.events import DownloadAsked, PageOpened
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

SPANS = ("week", "term", "since_last", "all")


def stick_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about a stick; None if the touch is something else."""
    match touch:
        case Act("download", span) if kiosk.desk.signed:
            return _download(kiosk, span) if is_free(kiosk) else refused("session_open")
    return None


def _download(kiosk: Kiosk, span: str) -> Decided:
    """The span is asked for first."""
    if not span:
        return took(PageOpened("span"))
    return took(DownloadAsked(kiosk.desk.signed, span)) if span in SPANS else NOTHING
