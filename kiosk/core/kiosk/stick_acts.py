"""What a signed-in adult does with a stick: takes the record away, takes a package in."""

from __future__ import annotations

from kiosk.core.events import (
    AdultRevoked,
    DownloadAsked,
    PackageAccepted,
    PackageAsked,
    PackageRefused,
    PackageShown,
    PackageTaken,
    PageOpened,
)
from kiosk.core.inputs import Act, PackageIn, PackageRead, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.rosters import roster_taken
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

SPANS = ("week", "term", "since_last", "all")
READING = "reading"
"""What a package's page is about until the stick has been read."""


def stick_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about a stick; None if the touch is something else."""
    match touch:
        case Act("download" | "package" | "package_in") if kiosk.desk.signed:
            if not is_free(kiosk):
                return refused("session_open")
            return _asked(kiosk, touch)
    return None


def _asked(kiosk: Kiosk, touch: Act) -> Decided:
    """A download's span is asked for first; a package is shown first."""
    desk = kiosk.desk
    match touch:
        case Act("download", ""):
            return took(PageOpened("span"))
        case Act("download", span) if span in SPANS:
            return took(DownloadAsked(desk.signed, span))
        case Act("package"):
            return took(PackageAsked(desk.signed))
        case Act("package_in", package) if _is_shown(kiosk, package):
            return took(PackageAccepted(desk.signed, package))
    return NOTHING


def _is_shown(kiosk: Kiosk, package: str) -> bool:
    """Whether the package is the one that is shown just now, with nothing against it."""
    desk = kiosk.desk
    return desk.page == "package" and bool(package) and desk.about == package and not desk.why


def package_read(kiosk: Kiosk, given: PackageRead) -> Decided:
    """The stick was read: its package is shown, if the technician still waits for it."""
    if kiosk.desk.page != "package" or kiosk.desk.about != READING:
        return NOTHING
    return took(PackageShown(given.package, given.made_us, given.lines, given.why))


def package_in(kiosk: Kiosk, given: PackageIn) -> Decided:
    """All that a package leads to, in one go; or that it was refused."""
    if given.why:
        return took(PackageRefused(given.by, given.why))
    taken = PackageTaken(given.by, given.package, given.made_us, given.parts)
    roster = roster_taken(kiosk, given.roster) if given.roster else ()
    ended = (AdultRevoked(ref, given.by) for ref in given.revoked if kiosk.adults.find(ref))
    return took(taken, *roster, *ended)
