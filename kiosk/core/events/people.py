"""What happens to adults and pupils: who may do what."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class AdultAdded(Event):
    """An adult may use the kiosk in `role`: a key of the model's `MAY`."""

    adult: str
    role: str
    by: str


@dataclass(frozen=True)
class PinIssued(Event):
    """A new PIN was issued; the one before stopped working."""

    adult: str
    by: str


@dataclass(frozen=True)
class AdultRevoked(Event):
    """The adult may no longer use the kiosk."""

    adult: str
    by: str


@dataclass(frozen=True)
class PinTried(Event):
    """A PIN was typed for `purpose`. Recorded before it is checked, so no cut gives a free try."""

    adult: str
    purpose: str
    stay: int = 0


@dataclass(frozen=True)
class PinPassed(Event):
    """The PIN was right."""

    adult: str
    purpose: str


@dataclass(frozen=True)
class PinFailed(Event):
    """The PIN was wrong."""

    adult: str
    purpose: str


@dataclass(frozen=True)
class OwnUseStarted(Event):
    """An adult drills for themselves; the set-up is void afterwards."""

    adult: str


@dataclass(frozen=True)
class OwnHoleCounted(Event):
    """The adult has drilled one more hole and cared to count it."""

    adult: str


@dataclass(frozen=True)
class OwnUseEnded(Event):
    """The adult's own use is over."""

    adult: str


@dataclass(frozen=True)
class LevelSet(Event):
    """The pupil's training level on this machine. `by` is an adult or `roster`."""

    pupil: str
    level: str
    by: str


# --- what an adult is let in with ----------------------------------------------------------------


@dataclass(frozen=True)
class AdultAuthorised(Event):
    """The adult may use `machine` up to and with the day `until`; 0 for no end.

    Days are counted in UTC since 1 January 1970.
    """

    adult: str
    machine: str
    until: int
    by: str


@dataclass(frozen=True)
class SecretAsked(Event):
    """A technician asked for a new `pin`, `badge` or `codes` for an adult."""

    adult: str
    what: str
    by: str


@dataclass(frozen=True)
class BadgeIssued(Event):
    """A badge was read in for the adult; the one before stopped working."""

    adult: str
    by: str


@dataclass(frozen=True)
class CodesIssued(Event):
    """`count` spare codes were issued, numbered from 1; those before stopped working."""

    adult: str
    count: int
    by: str


@dataclass(frozen=True)
class BadgeTried(Event):
    """A badge was read for `purpose`. Recorded before it is looked for."""

    purpose: str


@dataclass(frozen=True)
class BadgePassed(Event):
    """The badge is this adult's."""

    adult: str
    purpose: str


@dataclass(frozen=True)
class BadgeUnknown(Event):
    """The badge is nobody's who may do this."""

    purpose: str


@dataclass(frozen=True)
class CodeTried(Event):
    """A spare code was typed for `purpose`. Recorded before it is looked for."""

    adult: str
    purpose: str


@dataclass(frozen=True)
class CodePassed(Event):
    """The adult's spare code `number` was right; from now on it is used up."""

    adult: str
    purpose: str
    number: int


@dataclass(frozen=True)
class CodeFailed(Event):
    """The spare code was wrong or used up."""

    adult: str
    purpose: str
