"""What happens to adults and pupils: who may do what."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class AdultAdded(Event):
    """An adult may use the kiosk in `role`: `teacher` or `technician`."""

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
class OwnUseEnded(Event):
    """The adult's own use is over."""

    adult: str


@dataclass(frozen=True)
class LevelSet(Event):
    """The pupil's training level on this machine. `by` is an adult or `roster`."""

    pupil: str
    level: str
    by: str
