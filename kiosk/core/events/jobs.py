"""Jobs that a teacher made at the screen, for one group."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class JobMade(Event):
    """A job for `group`, of a piece of work of `shape`; its sizes are in micrometres."""

    job: str
    group: str
    material: str
    shape: str
    thickness: int
    width: int
    length: int
    by: str


@dataclass(frozen=True)
class JobHoleAdded(Event):
    """One kind of hole of a job made, `um` wide; `depth` in micrometres, 0 for through."""

    job: str
    hole: str
    bit: str
    um: int
    depth: int
    count: int
    by: str


@dataclass(frozen=True)
class JobDropped(Event):
    """A job made at the screen is not offered any more."""

    job: str
    by: str
