"""The part of the state about keeping the drill in order: deputy, checks, bits, faults, data."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    AdultRevoked,
    BitsChanged,
    BitsCounted,
    CheckDone,
    DatumSet,
    DeputyNamed,
    Entry,
    HoursOverruled,
    KioskStarted,
    PreUseFailed,
    ReturnedToUse,
    SilenceAsked,
    SilenceEnded,
    TakenOutOfUse,
)
from kiosk.core.units import Moment
from kiosk.core.values import replace

FAULTS_KEPT = 20
"""How many faults the technician can look back on at the screen; the record has them all."""


@dataclass(frozen=True)
class CheckState:
    """An installation check as last entered: what was found, and on which day (UTC, since 1970).

    `adult` is who has entered it.
    """

    check: str
    found: str
    day: int
    adult: str = ""


@dataclass(frozen=True)
class Rack:
    """How many good bits of one kind and size there are, and how many blunt ones lie aside."""

    bit: str
    um: int
    good: int = 0
    blunt: int = 0

    def after(self, what: str) -> Rack:
        """The rack after one bit was `new`, `blunt`, `sharpened` or `lost`."""
        good = {"new": 1, "sharpened": 1, "blunt": -1, "lost": -1}.get(what, 0)
        blunt = {"blunt": 1, "sharpened": -1}.get(what, 0)
        return replace(self, good=max(0, self.good + good), blunt=max(0, self.blunt + blunt))


@dataclass(frozen=True)
class Fault:
    """Once out of use: why, from which day to which; `until` 0 while it still is."""

    why: str
    since: int
    until: int = 0


@dataclass(frozen=True)
class Silence:
    """Silent hours: since when, and for how long."""

    since: Moment
    for_s: int


@dataclass(frozen=True)
class Care:
    """What the technician looks after. `faults` has the newest first.

    `data` are data of the machine in place of its file's, by their short words. Of silent hours
    that end at `overruled_s` an adult has said that the clock is wrong.
    """

    deputy: str = ""
    checks: tuple[CheckState, ...] = ()
    racks: tuple[Rack, ...] = ()
    faults: tuple[Fault, ...] = ()
    data: tuple[tuple[str, int], ...] = ()
    silence: Silence | None = None
    overruled_s: int = 0

    def check(self, id: str) -> CheckState | None:
        """How an installation check was last made; None where nobody has entered it."""
        return next((c for c in self.checks if c.check == id), None)

    def rack(self, bit: str, um: int) -> Rack:
        """The rack of one bit; an empty one where nothing was ever counted."""
        return next((r for r in self.racks if (r.bit, r.um) == (bit, um)), Rack(bit, um))


def advance_care(care: Care, entry: Entry) -> Care:
    """The part after the entry."""
    match entry.event:
        case DeputyNamed(ref):
            return replace(care, deputy=ref)
        case AdultRevoked(ref) if ref == care.deputy:
            return replace(care, deputy="")
        case CheckDone(check, found, day, adult):
            others = tuple(c for c in care.checks if c.check != check)
            return replace(care, checks=(*others, CheckState(check, found, day, adult)))
        case BitsChanged(bit, um, what):
            return _racked(care, care.rack(bit, um).after(what))
        case BitsCounted(bit, um, good, blunt):
            return _racked(care, Rack(bit, um, good, blunt))
        case SilenceAsked(_, for_s):
            return replace(care, silence=Silence(entry.at, for_s))
        case KioskStarted():
            return _started(care, entry)
        case SilenceEnded():
            return replace(care, silence=None)
        case HoursOverruled(_, until_s):
            return replace(care, overruled_s=until_s)
        case DatumSet(what, value):
            data = tuple(pair for pair in care.data if pair[0] != what)
            return replace(care, data=(*data, (what, value)))
    return _advance_faults(care, entry)


def _started(care: Care, entry: Entry) -> Care:
    """Nobody knows how long the power was off, nor whether the clock is still wrong."""
    silence = replace(care.silence, since=entry.at) if care.silence else None
    return replace(care, silence=silence, overruled_s=0)


def _racked(care: Care, rack: Rack) -> Care:
    others = tuple(r for r in care.racks if (r.bit, r.um) != (rack.bit, rack.um))
    return replace(care, racks=tuple(sorted((*others, rack), key=lambda r: (r.bit, r.um))))


def _advance_faults(care: Care, entry: Entry) -> Care:
    """A fault begins as the drill is taken out of use, and ends as it is returned."""
    day = entry.at.day
    match entry.event:
        case PreUseFailed(_, why) | TakenOutOfUse(why):
            return replace(care, faults=(Fault(why, day), *care.faults)[:FAULTS_KEPT])
        case ReturnedToUse():
            ended = tuple(f if f.until else replace(f, until=day) for f in care.faults)
            return replace(care, faults=ended)
    return care
