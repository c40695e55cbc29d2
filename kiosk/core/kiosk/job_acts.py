"""What a teacher does about jobs at the screen: makes one for a group, or takes one away."""

from __future__ import annotations

from kiosk.core.events import JobDropped, PageOpened
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.making import (
    HOLE,
    MOST_HOLES,
    PIECE,
    Making,
    is_known,
    job_as_made,
    made_events,
    problems_of,
)
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

_ABOUT = ("jobs_made", "make", "make_keep", "job_made", "job_drop")
MOST_SAID = PIECE + HOLE * MOST_HOLES


def job_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a teacher's touch about jobs; None if it is about something else."""
    if not isinstance(touch, Act) or touch.what not in _ABOUT or not kiosk.desk.signed:
        return None
    if not is_free(kiosk):
        return refused("session_open")
    what, about = touch.what, touch.about
    match what:
        case "jobs_made":
            return took(PageOpened("jobs_made"))
        case "make":
            return _asked(shop, kiosk, about)
        case "make_keep":
            return _kept(shop, kiosk, Making.of(about))
        case "job_made" if kiosk.made.find(about):
            return took(PageOpened("job_made", about))
        case "job_drop" if kiosk.made.find(about):
            return took(JobDropped(about, kiosk.desk.signed), PageOpened("jobs_made"))
    return NOTHING


def _asked(shop: Shop, kiosk: Kiosk, about: str) -> Decided:
    """The next question; once a hole is whole, what the sums propose. `+` asks for another."""
    more = about.endswith(" +")
    making = Making.of(about.removesuffix(" +"))
    if not making.said and kiosk.lesson:
        making = Making((kiosk.lesson.group,))
    if len(making.said) > MOST_SAID - HOLE * more or not is_known(shop, making):
        return NOTHING
    review = making.is_whole and not more
    return took(PageOpened("made" if review else "make", making.about))


def _kept(shop: Shop, kiosk: Kiosk, making: Making) -> Decided:
    if kiosk.desk.page != "made" or kiosk.desk.about != making.about or not making.is_whole:
        return NOTHING
    events = made_events(shop, kiosk, making, kiosk.desk.signed)
    if problems_of(shop, job_as_made(events)):
        return refused("no_plan")
    return took(*events, PageOpened("jobs_made"))
