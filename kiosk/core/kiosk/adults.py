"""The adults' part of the state: roles, wrong PINs and the back-off, kept across restarts."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    AdultAdded,
    AdultAuthorised,
    AdultRevoked,
    BadgeIssued,
    BadgePassed,
    BadgeTried,
    BadgeUnknown,
    CodeFailed,
    CodePassed,
    CodesIssued,
    CodeTried,
    Entry,
    Event,
    KioskStarted,
    PinFailed,
    PinIssued,
    PinPassed,
    PinTried,
)
from kiosk.core.units import Duration, Moment
from kiosk.core.values import replace

FREE_TRIES = 2  # common practice: two slips of the finger cost nothing
FIRST_WAIT_S = 30  # NIST SP 800-63B (rev 3) 5.2.2: a delay that rises from 30 s to 1 h
LONGEST_WAIT_S = 3600
PAUSE_S = 2  # after an unknown badge or a wrong spare code: long for a guesser, short for a hand
SYNCHRONISED = 2


@dataclass(frozen=True)
class AdultState:
    """One adult: role, tries since the last right PIN, and when the last one was.

    `until`: machines the adult is authorised for, each with the last day (0 for no end).
    """

    ref: str
    role: str
    wrong: int = 0
    last: Moment | None = None
    revoked: bool = False
    until: tuple[tuple[str, int], ...] = ()
    badge: bool = False
    codes: int = 0  # spare codes left

    @property
    def wait(self) -> Duration:
        """How long after the last wrong try the next one is taken."""
        if self.wrong <= FREE_TRIES:
            return Duration(0)
        doubled = FIRST_WAIT_S * 2 ** min(self.wrong - FREE_TRIES - 1, 7)
        return Duration(min(doubled, LONGEST_WAIT_S))


@dataclass(frozen=True)
class Trying:
    """What is being checked: a `pin`, a `badge` (nobody knows yet whose), a spare `code`."""

    adult: str
    purpose: str
    stay: bool = False
    way: str = "pin"


@dataclass(frozen=True)
class Adults:
    """All adults, and what is being checked, if anything.

    `slipped` is when an unknown badge or a wrong spare code came last. `day` is the last day that
    a synchronised clock has told.
    """

    known: tuple[AdultState, ...] = ()
    trying: Trying | None = None
    slipped: Moment | None = None
    day: int = 0

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

    def is_paused(self, now: Moment) -> bool:
        """Whether the next badge or spare code must wait a moment: guessing must not pay."""
        passed = now.since(self.slipped) if self.slipped else None
        return passed is not None and passed.s < PAUSE_S

    @property
    def technicians(self) -> tuple[str, ...]:
        """Who is a technician and not revoked."""
        return tuple(a.ref for a in self.known if a.role == "technician" and not a.revoked)

    @property
    def has_technician(self) -> bool:
        """Whether any technician can use the kiosk."""
        return bool(self.technicians)


def advance_adults(adults: Adults, entry: Entry) -> Adults:
    """The adults' part after the entry."""
    told = entry.event.recorded and entry.at.quality >= SYNCHRONISED
    if told and entry.at.day > adults.day:
        adults = replace(adults, day=entry.at.day)
    after = _advance_tries(adults, entry)
    return _advance_issued(after, entry.event)


def _advance_issued(adults: Adults, event: Event) -> Adults:
    """What an adult is let in with, where, and how long."""
    match event:
        case AdultAuthorised(ref, machine, until):
            adult = adults.find(ref)
            others = tuple(u for u in adult.until if u[0] != machine) if adult else ()
            return _change(adults, ref, until=(*others, (machine, until)))
        case BadgeIssued(ref):
            return _change(_unless_tried(adults, "badge", ""), ref, badge=True)
        case CodesIssued(ref, count):
            return _change(_unless_tried(adults, "code", ref), ref, codes=count)
    return adults


def _unless_tried(adults: Adults, way: str, ref: str) -> Adults:
    """What is being checked no longer counts if it was replaced or taken away meanwhile."""
    trying = adults.trying
    gone = trying is not None and trying.way == way and trying.adult == ref
    return replace(adults, trying=None) if gone else adults


def _advance_tries(adults: Adults, entry: Entry) -> Adults:
    match entry.event:
        case AdultAdded(ref, role):
            others = tuple(a for a in adults.known if a.ref != ref)
            return replace(adults, known=(*others, AdultState(ref, role)))
        case AdultRevoked(ref):
            return _change(adults, ref, revoked=True, badge=False, codes=0, until=())
        case PinIssued(ref):
            return _change(_unless_tried(adults, "pin", ref), ref, wrong=0, last=None)
        case PinTried(ref, purpose, stay):
            tried = _wrong_once_more(adults, ref, entry.at)
            return replace(tried, trying=Trying(ref, purpose, bool(stay)))
        case PinPassed(ref):
            return replace(_change(adults, ref, wrong=0, last=None), trying=None)
        case PinFailed():
            return replace(adults, trying=None)
        case BadgeTried(purpose):
            return replace(adults, trying=Trying("", purpose, way="badge"))
        case CodeTried(ref, purpose):
            return replace(adults, trying=Trying(ref, purpose, way="code"))
        case BadgePassed():
            return replace(adults, trying=None)
        case CodePassed(ref):
            adult = adults.find(ref)
            return replace(_change(adults, ref, codes=adult.codes - 1 if adult else 0), trying=None)
        case BadgeUnknown() | CodeFailed():
            return replace(adults, trying=None, slipped=entry.at)
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
    return replace(adults, known=known, trying=None, slipped=None)
