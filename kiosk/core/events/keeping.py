"""What is no longer kept: old entries, and what was known of one person."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class Purged(Event):
    """Entries `first` to `last` were kept long enough and are gone; `head` is the last one's hash.

    The record begins with entry `last` + 1 from now on, which follows `head`.
    """

    first: int
    last: int
    head: str


@dataclass(frozen=True)
class Erased(Event):
    """What was kept apart under `ref` is gone. `what`: `adult`, `pupil` or `note`.

    `why` is `asked` or `retention`.
    """

    what: str
    ref: str
    why: str
