"""Near misses and incidents: what became of each, and which hazards are to be looked at again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from kiosk.core.events import (
    Entry,
    FollowedUp,
    HazardMarked,
    IncidentClosed,
    IncidentKept,
    Noted,
    ReviewSaid,
)
from kiosk.core.values import replace

FOLLOWED = ("near_miss", "incident")
PARTS = ("cause", "action")


@dataclass(frozen=True)
class Incident:
    """A note that is followed up: its kind, hazard and day (UTC, since 1970).

    `cause` and `action` are notes of their own, empty until written. `reviewed`: whether the
    assessment was looked at again because of it, `yes` or `no`, empty while nobody has said.
    """

    note: str
    what: str
    hazard: str
    day: int
    cause: str = ""
    action: str = ""
    reviewed: str = ""

    @property
    def is_answered(self) -> bool:
        """Whether all is said that must be before it is closed."""
        return bool(self.cause and self.action and self.reviewed)


@dataclass(frozen=True)
class Incidents:
    """Those not closed yet, the oldest first, and the hazards marked for review."""

    open: tuple[Incident, ...] = ()
    marked: tuple[str, ...] = ()

    def find(self, note: str) -> Incident | None:
        """The open incident of a note."""
        return next((i for i in self.open if i.note == note), None)


def advance_incidents(incidents: Incidents, entry: Entry) -> Incidents:
    """The part after the entry. Every near miss and incident marks its hazard."""
    match entry.event:
        case Noted(_, note, what, hazard) if what in FOLLOWED:
            opened = Incident(note, what, hazard, entry.at.day)
            return _marked(replace(incidents, open=(*incidents.open, opened)), hazard)
        case IncidentKept(note, what, hazard, day, cause, action, reviewed):
            kept = Incident(note, what, hazard, day, cause, action, reviewed)
            return replace(incidents, open=(*incidents.open, kept))
        case HazardMarked(hazard):
            return _marked(incidents, hazard)
        case FollowedUp(_, of, part, note):
            return _changed(incidents, of, **{part: note})
        case ReviewSaid(_, of, hazard, answer):
            left = tuple(h for h in incidents.marked if h != hazard or answer != "yes")
            return replace(_changed(incidents, of, reviewed=answer), marked=left)
        case IncidentClosed(_, of):
            return replace(incidents, open=tuple(i for i in incidents.open if i.note != of))
    return incidents


def _marked(incidents: Incidents, hazard: str) -> Incidents:
    others = tuple(h for h in incidents.marked if h != hazard)
    return replace(incidents, marked=(*others, hazard))


def _changed(incidents: Incidents, of: str, **changes: Any) -> Incidents:
    done = tuple(replace(i, **changes) if i.note == of else i for i in incidents.open)
    return replace(incidents, open=done)
