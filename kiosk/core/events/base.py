"""What every event shares, and the entry that carries one in the record."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from kiosk.core.plan.shape import Plan
from kiosk.core.units import Moment


@dataclass(frozen=True)
class Event:
    """What all events share: the version of the kind's fields, and whether it is kept."""

    v: ClassVar[int] = 1
    recorded: ClassVar[bool] = True


@dataclass(frozen=True)
class Entry:
    """One line of the record: its number in the log, when, and what happened.

    Moves travel in an entry too, with number 0. `plan` is there for the start of a session,
    found by its digest.
    """

    seq: int
    at: Moment
    event: Event
    plan: Plan | None = None
