"""What a badge and a spare code lead to: ways in for an adult whose PIN must wait."""

from __future__ import annotations

from kiosk.core.events import (
    BadgePassed,
    BadgeTried,
    BadgeUnknown,
    CodeFailed,
    CodePassed,
    CodeTried,
    Event,
    PageOpened,
    SecretAsked,
)
from kiosk.core.inputs import BadgeChecked, BadgeRead, CodeChecked, OpenPage, Touch, TypeCode
from kiosk.core.kiosk.adult_acts import PURPOSES, consequences, is_wanted, not_tried
from kiosk.core.kiosk.adults import Trying
from kiosk.core.kiosk.allowed import may
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment


def badge_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a badge or a spare code; None if the touch is something else."""
    match touch:
        case BadgeRead():
            return _badge(shop, kiosk, now)
        case TypeCode(adult):
            return _code(shop, kiosk, adult, now)
        case OpenPage("code") if kiosk.desk.page == "pin":
            return took(PageOpened("code"))
    return None


def _badge(shop: Shop, kiosk: Kiosk, now: Moment) -> Decided:
    """One touch of a badge is for what the screen asks an adult for; else it opens the menu."""
    desk = kiosk.desk
    if kiosk.adults.trying:
        return refused("pin_busy")
    if desk.page == "badge" and may(shop, kiosk, desk.signed, "secret", now):
        return took(SecretAsked(desk.about, "badge", desk.signed))
    purpose = badge_purpose(shop, kiosk)
    if not purpose:
        return NOTHING
    return refused("pause") if kiosk.adults.is_paused(now) else took(BadgeTried(purpose))


def badge_purpose(shop: Shop, kiosk: Kiosk) -> str:
    """What a badge would be read for on the screen that stands; empty for nothing."""
    desk = kiosk.desk
    if desk.page in ("names", "pin", "code"):
        return desk.purpose if is_wanted(shop, kiosk, desk.purpose) else ""
    if desk.page:
        return ""
    return next((p for p in PURPOSES if is_wanted(shop, kiosk, p)), "")


def _code(shop: Shop, kiosk: Kiosk, adult: str, now: Moment) -> Decided:
    why_not = not_tried(shop, kiosk, adult, "code", now)
    if why_not is not None:
        return why_not
    if kiosk.adults.is_paused(now):
        return refused("pause")
    return took(CodeTried(adult, kiosk.desk.purpose))


def badge_checked(shop: Shop, kiosk: Kiosk, given: BadgeChecked, now: Moment) -> Decided:
    """The worker has looked for the badge: what it was read for follows, if still wanted."""
    trying = kiosk.adults.trying
    if trying is None or trying.way != "badge":
        return NOTHING
    known = kiosk.adults.find(given.adult)
    if known is None or not known.badge or not may(shop, kiosk, known.ref, trying.purpose, now):
        return took(BadgeUnknown(trying.purpose), *_names(shop, kiosk, trying.purpose))
    found = Trying(given.adult, trying.purpose, way="badge")
    passed = BadgePassed(given.adult, trying.purpose)
    return took(passed, *consequences(shop, kiosk, found, now))


def _names(shop: Shop, kiosk: Kiosk, purpose: str) -> tuple[Event, ...]:
    """After an unknown badge the names come up: a PIN will do."""
    wanted = kiosk.desk.typed and is_wanted(shop, kiosk, purpose)
    return (PageOpened("names", purpose),) if wanted else ()


def code_checked(shop: Shop, kiosk: Kiosk, given: CodeChecked, now: Moment) -> Decided:
    """The worker has looked for the spare code; a right one is used up whatever follows."""
    trying = kiosk.adults.trying
    if trying is None or trying.way != "code" or trying.adult != given.adult:
        return NOTHING
    known = kiosk.adults.find(trying.adult)
    if not given.number or known is None or not known.codes:
        return took(CodeFailed(trying.adult, trying.purpose))
    passed = CodePassed(trying.adult, trying.purpose, given.number)
    return took(passed, *consequences(shop, kiosk, trying, now))
