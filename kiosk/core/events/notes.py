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
