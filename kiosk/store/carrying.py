"""Who may use the kiosk, at what level, and what is looked after: for a log that begins anew."""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.core.events import (
    AdultAdded,
    AdultAuthorised,
    BadgeIssued,
    BesideSet,
    BitsCounted,
    CheckDone,
    CodesIssued,
    DatumSet,
    DeputyNamed,
    Event,
    HazardMarked,
    IncidentKept,
    JobHoleAdded,
    JobMade,
    LevelKept,
    PilotsDrilled,
    QuestionsAnswered,
    ReturnedToUse,
    SilenceAsked,
    TakenOutOfUse,
)
from kiosk.core.kiosk import Kiosk
from kiosk.core.kiosk.adults import AdultState

BY = "record"


def adult_events(adult: AdultState) -> Iterator[Event]:
    """An adult's role, where and how long it holds, and what the adult is let in with."""
    yield AdultAdded(adult.ref, adult.role, BY)
    yield from (AdultAuthorised(adult.ref, where, until, BY) for where, until in adult.until)
    if adult.badge:
        yield BadgeIssued(adult.ref, BY)
    if adult.codes:
        yield CodesIssued(adult.ref, adult.codes, BY)


def kept_events(kiosk: Kiosk) -> Iterator[Event]:
    """All that a new log begins with beside its adults, but for being out of use."""
    yield from pupil_events(kiosk)
    yield from care_events(kiosk)
    yield from incident_events(kiosk)
    yield from job_events(kiosk)


def pupil_events(kiosk: Kiosk) -> Iterator[Event]:
    """Training levels with their days, who has an adult beside, questions answered, pilots."""
    pupils = kiosk.pupils
    for g in pupils.grants:
        word = g.level.word
        yield LevelKept(g.pupil, word, g.alike, g.bits, g.since, g.until, g.used, BY)
    yield from (BesideSet(ref, 1, BY) for ref in pupils.beside)
    yield from (QuestionsAnswered(ref) for ref in pupils.answered)
    yield from (PilotsDrilled(p.pupil, p.job, p.hole, p.left, BY) for p in pupils.piloted)


def care_events(kiosk: Kiosk) -> Iterator[Event]:
    """The deputy, checks with their days, racks of bits, and data set in place of the file's."""
    care = kiosk.care
    if care.deputy:
        yield DeputyNamed(care.deputy, BY)
    yield from (CheckDone(c.check, c.found, c.day, c.adult or BY) for c in care.checks)
    yield from (BitsCounted(r.bit, r.um, r.good, r.blunt, BY) for r in care.racks)
    yield from (DatumSet(what, value, BY) for what, value in care.data)
    if care.silence:
        yield SilenceAsked(BY, care.silence.for_s)


def fault_events(kiosk: Kiosk) -> Iterator[tuple[int, Event]]:
    """Each time out of use with its days, the oldest first; the last one may still stand."""
    out_by = kiosk.machine.out_by
    for fault in reversed(kiosk.care.faults):
        last = not fault.until and fault == kiosk.care.faults[0]
        yield fault.since, TakenOutOfUse(fault.why, out_by if last else "")
        if fault.until:
            yield fault.until, ReturnedToUse(BY)


def incident_events(kiosk: Kiosk) -> Iterator[Event]:
    """Incidents that are not closed yet, and the hazards marked for review."""
    for i in kiosk.incidents.open:
        yield IncidentKept(i.note, i.what, i.hazard, i.day, i.cause, i.action, i.reviewed)
    yield from (HazardMarked(hazard) for hazard in kiosk.incidents.marked)


def job_events(kiosk: Kiosk) -> Iterator[Event]:
    """The jobs made at the screen with their holes."""
    for made in kiosk.made.jobs:
        job, work = made.job, made.job.work
        sizes = (work.thickness.um, work.width.um, work.length.um)
        yield JobMade(job.id, made.group, job.material, work.shape, *sizes, BY)
        for hole in job.holes:
            depth = hole.depth.um if hole.depth else 0
            yield JobHoleAdded(job.id, hole.id, hole.bit, hole.diameter.um, depth, hole.count, BY)
