"""The adults' part of the state: roles, wrong PINs and the back-off, kept across restarts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from kiosk.core.events import (
    AdultAdded,
    AdultRevoked,
    Entry,
    KioskStarted,
    PinFailed,
    PinIssued,
    PinPassed,
    PinTried,
)
from kiosk.core.units import Duration, Moment

FREE_TRIES = 2  # common practice: two slips of the finger cost nothing
FIRST_WAIT_S = 30  # NIST SP 800-63B (rev 3) 5.2.2: a delay that rises from 30 s to 1 h
LONGEST_WAIT_S = 3600


@dataclass(frozen=True)
class AdultState:
    """One adult: role, tries since the last right PIN, and when the last one was."""

    ref: str
    role: str
    wrong: int = 0
    last: Moment | None = None
    revoked: bool = False

    @property
    def wait(self) -> Duration:
        """How long after the last wrong try the next one is taken."""
        if self.wrong <= FREE_TRIES:
            return Duration(0)
        doubled = FIRST_WAIT_S * 2 ** min(self.wrong - FREE_TRIES - 1, 7)
        return Duration(min(doubled, LONGEST_WAIT_S))


@dataclass(frozen=True)
class Trying:
    """A PIN that is being checked."""

    adult: str
    purpose: str
    stay: bool


@dataclass(frozen=True)
class Adults:
    """All adults, and the PIN being checked, if any."""

    known: tuple[AdultState, ...] = ()
    trying: Trying | None = None

    def find(self, ref: str) -> AdultState | None:
        """The adult behind a reference, unless revoked."""
        return next((a for a in self.known if a.ref == ref and not a.revoked), None)

    def wait_left(self, ref: str, now: Moment) -> Duration:
        """How long the adult's PIN is not taken yet; zero if it is."""
        adult = self.find(ref)
        if adult is None or adult.last is None:
            return Duration(0)
        passed = now.since(adult.last)
        left = adult.wait.s - (passed.s if passed else 0.0)
        return Duration(max(0.0, left))

    @property
    def has_technician(self) -> bool:
        """Whether any technician can use the kiosk."""
        return any(a.role == "technician" and not a.revoked for a in self.known)


def advance_adults(adults: Adults, entry: Entry) -> Adults:
    """The adults' part after the entry."""
    match entry.event:
        case AdultAdded(ref, role):
            others = tuple(a for a in adults.known if a.ref != ref)
            return replace(adults, known=(*others, AdultState(ref, role)))
        case AdultRevoked(ref):
            return _change(adults, ref, revoked=True)
        case PinIssued(ref):
            return _change(adults, ref, wrong=0, last=None)
        case PinTried(ref, purpose, stay):
            tried = _wrong_once_more(adults, ref, entry.at)
            return replace(tried, trying=Trying(ref, purpose, bool(stay)))
        case PinPassed(ref):
            return replace(_change(adults, ref, wrong=0, last=None), trying=None)
        case PinFailed():
            return replace(adults, trying=None)
        case KioskStarted():
            return _wait_anew(adults, entry.at)
    return adults


def _change(adults: Adults, ref: str, **changes: object) -> Adults:
    known = tuple(
        replace(a, **changes) if a.ref == ref else a  # type: ignore[arg-type]
        for a in adults.known
    )
    return replace(adults, known=known)


def _wrong_once_more(adults: Adults, ref: str, at: Moment) -> Adults:
    """A try counts as wrong from the moment it is recorded; a right one takes it back."""
    adult = adults.find(ref)
    return _change(adults, ref, wrong=adult.wrong + 1, last=at) if adult else adults


def _wait_anew(adults: Adults, at: Moment) -> Adults:
    """Nobody knows how long the power was off, so a running back-off begins again."""
    known = tuple(replace(a, last=at) if a.wrong > FREE_TRIES else a for a in adults.known)
    return Adults(known, None)
