"""What happens to the kiosk, its clock and the machine."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class KioskStarted(Event):
    """The software began. `after`: `clean`, `cut` (the last run did not end itself), `first`.

    `content` is the digest of the content in use, kept apart, write-once.
    """

    machine: str
    software: str
    after: str
    content: str = ""


@dataclass(frozen=True)
class KioskStopped(Event):
    """The software ended itself in order."""


@dataclass(frozen=True)
class RecordRenewed(Event):
    """The record before this one was damaged and set aside; a new log begins.

    As far as is known its log was `log` and ended with line `last`, whose hash is `head`.
    """

    log: str
    last: int
    head: str


@dataclass(frozen=True)
class ClockStepped(Event):
    """The wall clock was moved by `by_us` against the time since boot."""

    by_us: int
    quality: int


@dataclass(frozen=True)
class ReadingChanged(Event):
    """The reading of `input` is now off, on, unknown or fault. `why` is a short word."""

    input: str
    reading: str
    why: str
    at_start: int = 0


@dataclass(frozen=True)
class RunWithoutOkSeen(Event):
    """A starter or spindle contact was seen running though no OK stood."""

    input: str


@dataclass(frozen=True)
class RunDownSeen(Event):
    """The spindle came to rest `ms` milliseconds after the starter went off, by its contacts."""

    ms: int


@dataclass(frozen=True)
class PreUsePassed(Event):
    """An adult looked at every item of the machine's pre-use check and found it right."""

    adult: str


@dataclass(frozen=True)
class PreUseFailed(Event):
    """An adult found `item` of the pre-use check not right; the machine is out of use."""

    adult: str
    item: str


@dataclass(frozen=True)
class TakenOutOfUse(Event):
    """The machine is not to be used; `reason` is a short word."""

    reason: str
    adult: str = ""


@dataclass(frozen=True)
class ReturnedToUse(Event):
    """An authorised adult returned the machine to use."""

    adult: str
