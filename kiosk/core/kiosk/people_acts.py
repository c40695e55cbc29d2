"""What a technician does about adults at the screen: who may use the drill, and with what."""

from __future__ import annotations

from kiosk.core.events import (
    AdultAdded,
    AdultAuthorised,
    AdultRevoked,
    BadgeIssued,
    CodesIssued,
    Event,
    PageOpened,
    PinIssued,
    SecretAsked,
    SecretShown,
)
from kiosk.core.inputs import Act, AdultNamed, SecretReady, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.allowed import NEEDS, may, today
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.model import MAY, STANDING
from kiosk.core.model.people import PEOPLE
from kiosk.core.units import Moment

ENDS_DAYS = (1, 7, 28, 91, 366)
"""For how many days an adult can be authorised at the screen; a command may name any day."""

SECRETS = ("pin", "codes")


def people_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a technician's touch about adults; None if it is about something else."""
    if not isinstance(touch, Act) or NEEDS.get(touch.what) != PEOPLE or not kiosk.desk.signed:
        return None
    if not is_free(kiosk):
        return refused("session_open")
    what, about = touch.what, touch.about
    if what in ("people", "role"):
        return took(PageOpened(what, about))
    if what == "person_new":
        return took(PageOpened("name", about)) if about in MAY else NOTHING
    return _about_one(shop, kiosk, what, about, now)


def _about_one(shop: Shop, kiosk: Kiosk, what: str, about: str, now: Moment) -> Decided:
    ref, _, more = about.partition(" ")
    if kiosk.adults.find(ref) is None:
        return NOTHING
    match what:
        case "person" | "revoke_ask" | "until" | "badge":
            return took(PageOpened(what, ref))
        case "secret" if more in SECRETS:
            return took(SecretAsked(ref, more, kiosk.desk.signed))
        case "authorise":
            return _authorised(shop, kiosk, ref, more, now)
        case "revoke":
            return _revoked(kiosk, ref)
    return NOTHING


def _authorised(shop: Shop, kiosk: Kiosk, ref: str, days: str, now: Moment) -> Decided:
    """Today counts as the first day; 0 days stands for no end."""
    adult = kiosk.adults.find(ref)
    endless = days == "0" and adult is not None and adult.role in STANDING
    if not endless and days not in {str(n) for n in ENDS_DAYS}:
        return NOTHING
    until = 0 if endless else today(kiosk, now) + int(days) - 1
    by = kiosk.desk.signed
    return took(AdultAuthorised(ref, shop.machine.id, until, by), PageOpened("person", ref))


def _revoked(kiosk: Kiosk, ref: str) -> Decided:
    if kiosk.adults.technicians == (ref,):
        return refused("last_technician")
    after = () if ref == kiosk.desk.signed else (PageOpened("people"),)
    return took(AdultRevoked(ref, kiosk.desk.signed), *after)


def may_name(shop: Shop, kiosk: Kiosk, now: Moment) -> bool:
    """Whether a name is asked for, of somebody who may give one."""
    return kiosk.desk.page == "name" and may(shop, kiosk, kiosk.desk.signed, "person_new", now)


def adult_named(shop: Shop, kiosk: Kiosk, given: AdultNamed, now: Moment) -> Decided:
    """A new adult's name is kept: the adult is known from now on, and has nothing to show yet."""
    signed = kiosk.desk.signed
    if not may_name(shop, kiosk, now):
        return NOTHING
    if not given.adult:
        return refused("name")
    known = kiosk.adults.find(given.adult)
    added = () if known else (AdultAdded(given.adult, given.role, signed),)
    until = () if given.role in STANDING or known else (PageOpened("until", given.adult),)
    return took(*added, *(until or (PageOpened("person", given.adult),)))


def secret_ready(kiosk: Kiosk, given: SecretReady) -> Decided:
    """What was asked for is kept; it is shown once, if the technician still waits for it."""
    if kiosk.adults.find(given.adult) is None:
        return NOTHING
    waits = kiosk.desk.page == "issuing" and kiosk.desk.about == f"{given.what} {given.adult}"
    if given.why:
        return took(PageOpened("not_issued", given.adult)) if waits else NOTHING
    shown = _shown(given) if waits else ()
    return took(_issued(given), *shown)


def _shown(given: SecretReady) -> tuple[Event, ...]:
    return (SecretShown(given.lines) if given.lines else PageOpened("person", given.adult),)


def _issued(given: SecretReady) -> Event:
    match given.what:
        case "badge":
            return BadgeIssued(given.adult, given.by)
        case "codes":
            return CodesIssued(given.adult, len(given.lines), given.by)
    return PinIssued(given.adult, given.by)
