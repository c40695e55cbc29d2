"""The one root value and its fold: each part advances for itself."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from kiosk.core.events import Entry, KioskStarted, SessionEnded, SessionStarted
from kiosk.core.kiosk.adults import Adults, advance_adults
from kiosk.core.kiosk.care import Care, advance_care
from kiosk.core.kiosk.desk import Desk, advance_desk
from kiosk.core.kiosk.incidents import Incidents, advance_incidents
from kiosk.core.kiosk.lesson import Lesson, advance_lesson
from kiosk.core.kiosk.machine import MachineState, advance_machine
from kiosk.core.kiosk.made import Made, advance_made
from kiosk.core.kiosk.pupils import Pupils, advance_pupils
from kiosk.core.session import Session, advance_session, start_session
from kiosk.core.values import replace


@dataclass(frozen=True)
class Kiosk:
    """All that the kiosk knows. Only `desk` is forgotten at a restart."""

    machine: MachineState = MachineState()
    lesson: Lesson | None = None
    session: Session | None = None
    adults: Adults = Adults()
    pupils: Pupils = Pupils()
    care: Care = Care()
    incidents: Incidents = Incidents()
    made: Made = Made()
    desk: Desk = Desk()


EMPTY = Kiosk()


def advance(kiosk: Kiosk, entry: Entry) -> Kiosk:
    """The kiosk after the entry. Pure; the same entries always give the same kiosk."""
    return replace(
        kiosk,
        machine=advance_machine(kiosk.machine, entry, kiosk.session),
        lesson=advance_lesson(kiosk.lesson, entry),
        session=_advance_session(kiosk.session, entry),
        adults=advance_adults(kiosk.adults, entry),
        pupils=advance_pupils(kiosk.pupils, entry, kiosk.session),
        care=advance_care(kiosk.care, entry),
        incidents=advance_incidents(kiosk.incidents, entry),
        made=advance_made(kiosk.made, entry),
        desk=_advance_desk(kiosk, entry),
    )


def _advance_desk(kiosk: Kiosk, entry: Entry) -> Desk:
    """The desk after the entry; the last page of a turn knows whose it was."""
    desk = advance_desk(kiosk.desk, entry)
    if kiosk.session and isinstance(entry.event, SessionEnded) and desk.page == "finished":
        return replace(desk, answers=(("pupil", kiosk.session.pupil),))
    return desk


def _advance_session(session: Session | None, entry: Entry) -> Session | None:
    match entry.event:
        case SessionStarted() as event:
            return start_session(entry, event)
        case KioskStarted():
            return None  # a restart never resumes into drilling
    return advance_session(session, entry) if session else None


def replay(entries: Iterable[Entry], kiosk: Kiosk = EMPTY) -> Kiosk:
    """The kiosk after all the entries."""
    for entry in entries:
        kiosk = advance(kiosk, entry)
    return kiosk
