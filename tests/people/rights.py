"""What each person may do, as the state has it, and who an event says has changed it."""

from __future__ import annotations

from kiosk.core.events import Event, EveryoneStopped, HoleDrilled, KioskStarted
from kiosk.core.kiosk import Kiosk

OFFICE = frozenset({"command", "roster", "record", "first", "time"})
"""Words that stand for somebody at the office's keyboard, the record itself, or nobody: time."""

NOBODY = (EveryoneStopped, HoleDrilled, KioskStarted)
"""Anybody stops everyone, and the adult who lets work go on is named; a hole uses a pilot up, by
the pupil of its turn; a restart takes away, and gives nothing."""


def rights(kiosk: Kiosk) -> tuple[object, ...]:
    """Everything that says what somebody may do, apart from where a turn stands."""
    adults = tuple(
        (a.ref, a.role, a.revoked, a.until, a.badge, a.codes) for a in kiosk.adults.known
    )
    levels = tuple((*g.what, g.level, g.since, g.until) for g in kiosk.pupils.grants)
    pupils = (levels, kiosk.pupils.beside, kiosk.pupils.answered, kiosk.pupils.piloted)
    care, lesson, machine = kiosk.care, kiosk.lesson, kiosk.machine
    wrong = tuple(c.check for c in care.checks if c.found == "wrong")
    room = (care.deputy, care.data, care.silence is not None, care.overruled_s, wrong)
    open_for = (lesson.number, lesson.confirmed, lesson.stopped, lesson.tighter) if lesson else ()
    jobs = tuple(made.job.id for made in kiosk.made.jobs)
    return adults, pupils, room, open_for, (machine.out_of_use, machine.own_use), jobs


def who(event: Event) -> str:
    """Who has done it, as the event tells: an adult, a pupil, or a word of the office."""
    found = (getattr(event, name, "") for name in ("by", "adult", "pupil"))
    return next((str(ref) for ref in found if ref), "")
