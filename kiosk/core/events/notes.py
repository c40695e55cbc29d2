"""Notes that adults make, and downloads of the record."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class Noted(Event):
    """An adult noted a `near_miss`, `incident` or `note` on `hazard`.

    The text is kept apart and may be erased; `digest` is its salted SHA-256.
    """

    adult: str
    note: str
    what: str
    hazard: str
    digest: str


@dataclass(frozen=True)
class DownloadAsked(Event):
    """An adult asked for a download of `span`: `week`, `term`, `since_last` or `all`."""

    adult: str
    span: str


@dataclass(frozen=True)
class Downloaded(Event):
    """A download was written, read back and found equal: entries `first` to `last`."""

    span: str
    first: int
    last: int
    head: str


@dataclass(frozen=True)
class DownloadFailed(Event):
    """A download did not come about; `why` is a short word."""

    span: str
    why: str


# --- what becomes of a near miss or an incident --------------------------------------------------


@dataclass(frozen=True)
class FollowedUp(Event):
    """An adult wrote the `cause` of what note `of` tells, or the `action` taken.

    The text is kept apart under `note` and may be erased; `digest` is its salted SHA-256.
    """

    adult: str
    of: str
    part: str
    note: str
    digest: str


@dataclass(frozen=True)
class ReviewSaid(Event):
    """Whether the assessment was reviewed for `hazard`, `yes` or `no`, because of note `of`.

    With no note the hazard alone was reviewed; it is marked no more.
    """

    adult: str
    of: str
    hazard: str
    answer: str


@dataclass(frozen=True)
class IncidentClosed(Event):
    """What note `of` tells of is followed up."""

    adult: str
    of: str


@dataclass(frozen=True)
class IncidentKept(Event):
    """In a log that begins anew: an open incident as it stood, with the notes of its parts."""

    note: str
    what: str
    hazard: str
    day: int
    cause: str
    action: str
    reviewed: str


@dataclass(frozen=True)
class HazardMarked(Event):
    """In a log that begins anew: this hazard was marked for review."""

    hazard: str
