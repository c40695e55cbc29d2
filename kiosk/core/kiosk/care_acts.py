"""The technician's corner: what is done at the desk to keep the drill and its kiosk in order.

Each page's `about` says what it is for; pages that ask several things grow it answer by answer.
"""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.events import (
    BitsChanged,
    CheckDone,
    DatumSet,
    DeputyNamed,
    DownSaid,
    Event,
    PageOpened,
    RestartAsked,
    TakenOutOfUse,
)
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.allowed import today
from kiosk.core.kiosk.fitted import DATA
from kiosk.core.kiosk.returning import stopping_checks
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.model import STANDING
from kiosk.core.units import Moment

AGO_DAYS = (0, 7, 30, 91, 182)
"""How long ago an installation check can be entered to have been made."""

RACK_ACTS = ("new", "blunt", "sharpened", "lost")
RUN_DOWN_S = (2, 3, 4, 5, 6, 8, 10, 15)
WIDEST_MM = (5, 6, 8, 10, 13, 16, 20)
DOWN_AGO_DAYS = (0, 1, 2, 3, 4, 5, 6, 7)
DOWN_MIN = (15, 30, 60, 120, 240, 480)
DOWN_HOLES = (0, 1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30)
_PAGES = (
    *("care", "checks", "check", "racks", "rack", "deputy", "data", "datum", "fault_log"),
    *("computer", "part"),
)
_DONE = ("checked", "bit_changed", "name_deputy", "set_datum", "down", "restart")


def care_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a technician's touch in the corner; None if it is about something else."""
    if not isinstance(touch, Act) or not kiosk.desk.signed:
        return None
    what, about = touch.what, touch.about
    if what not in (*_PAGES, *_DONE, "ask_restart"):
        return None
    if not is_free(kiosk):
        return refused("session_open")
    if what in (*_PAGES, "ask_restart"):
        return took(PageOpened(what, about)) if _is_known(shop, what, about) else NOTHING
    return _done(shop, kiosk, what, tuple(about.split()), now)


def _is_known(shop: Shop, page: str, about: str) -> bool:
    """Whether there is what a page is to be about."""
    match page:
        case "check":
            return about in check_ids(shop)
        case "rack":
            return tuple(about.split()) in {(bit, str(um)) for bit, um in racks_of(shop)}
        case "datum":
            return about in DATA
        case "part":
            return about in {one.name for one in shop.computer}
    return not about


def check_ids(shop: Shop) -> tuple[str, ...]:
    """The installation checks of the assessment."""
    return tuple(c.id for c in shop.content.assessment.installation)


def racks_of(shop: Shop) -> tuple[tuple[str, int], ...]:
    """Every bit that a job asks for, and how wide it is in micrometres."""
    holes = [hole for job in shop.content.jobs for hole in job.holes]
    return tuple(sorted({(hole.bit, hole.diameter.um) for hole in holes}))


def _done(shop: Shop, kiosk: Kiosk, what: str, said: tuple[str, ...], now: Moment) -> Decided:
    by = kiosk.desk.signed
    match what, said:
        case "checked", (check, found, ago) if check in check_ids(shop):
            return _checked(shop, kiosk, CheckDone(check, found, 0, by), ago, now)
        case "bit_changed", (bit, um, how) if how in RACK_ACTS:
            known = _is_known(shop, "rack", f"{bit} {um}")
            event = BitsChanged(bit, int(um), how, by) if known else None
            return took(event, PageOpened("rack", f"{bit} {um}")) if event else NOTHING
        case "name_deputy", ():
            return took(DeputyNamed("", by), PageOpened("care"))
        case "name_deputy", (ref,):
            return _deputy(kiosk, ref)
        case "set_datum", (name, value):
            return _datum(name, value, by)
        case "down", _:
            return _down(kiosk, said, now)
        case "restart", ():
            return took(RestartAsked(by), PageOpened("restarting"))
    return NOTHING


def _checked(shop: Shop, kiosk: Kiosk, done: CheckDone, ago: str, now: Moment) -> Decided:
    """What was found not right is found today, and takes the drill out of use if it bears on it.

    A drill that is out of use already stays so for the reason that it has.
    """
    if done.found == "wrong" and ago == "0":
        event = replace(done, day=today(kiosk, now))
        stops = not kiosk.machine.out_of_use and done.check in stopping_checks(shop)
        out = (TakenOutOfUse(done.check, done.adult),) if stops else ()
        return took(event, *out, PageOpened("checks"))
    if done.found != "right" or ago not in {str(n) for n in AGO_DAYS}:
        return NOTHING
    return took(replace(done, day=today(kiosk, now) - int(ago)), PageOpened("checks"))


def _deputy(kiosk: Kiosk, ref: str) -> Decided:
    adult = kiosk.adults.find(ref)
    if adult is None or adult.role not in STANDING:
        return NOTHING
    return took(DeputyNamed(ref, kiosk.desk.signed), PageOpened("care"))


def _datum(name: str, value: str, by: str) -> Decided:
    """A longer run-down, no spells, thinner bits: the file's datum stands where it is tighter."""
    if name == "run_down" and value in {str(s) for s in RUN_DOWN_S}:
        return took(DatumSet(name, int(value) * 1000, by), PageOpened("data"))
    if name == "widest" and value in {str(mm) for mm in WIDEST_MM}:
        return took(DatumSet(name, int(value) * 1000, by), PageOpened("data"))
    if name == "spell" and value in ("0", "1"):
        return took(DatumSet(name, int(value), by), PageOpened("data"))
    return NOTHING


def _down(kiosk: Kiosk, said: tuple[str, ...], now: Moment) -> Decided:
    """The wall sheet, entered afterwards: how many days ago, how long, how many holes."""
    lists = (DOWN_AGO_DAYS, DOWN_MIN, DOWN_HOLES)
    known = len(said) <= len(lists) and all(
        one in {str(n) for n in of} for one, of in zip(said, lists, strict=False)
    )
    if not known:
        return NOTHING
    if len(said) < len(lists):
        return took(PageOpened("down", " ".join(said)))
    ago, minutes, holes = (int(one) for one in said)
    done: Event = DownSaid(today(kiosk, now) - ago, minutes, holes, kiosk.desk.signed)
    return took(done, PageOpened("menu"))
