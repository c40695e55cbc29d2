"""What a pupil of the lesson can make: each job with each of its kinds of hole."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.events import Event, PilotsDrilled
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import Hole, Job
from kiosk.core.session import Session


def hole_choices(shop: Shop, kiosk: Kiosk) -> tuple[tuple[Job, int, Hole], ...]:
    """The lesson's jobs with each of their kinds of hole, numbered from 0."""
    names = kiosk.lesson.jobs if kiosk.lesson else ()
    jobs = [job for name in names if (job := shop.content.job(name))]
    return tuple((job, i, hole) for job in jobs for i, hole in enumerate(job.holes))


def drillable(kiosk: Kiosk, pupil: str, job: Job, hole: int) -> int:
    """How many holes of a kind a pupil may drill now: all, or those that have their pilot."""
    wanted = job.holes[hole]
    if not wanted.after:
        return wanted.count
    return min(wanted.count, kiosk.pupils.with_pilot(pupil, job.id, hole))


def with_count(job: Job, hole: int, count: int) -> Job:
    """The job with so many of one kind of hole."""
    if job.holes[hole].count == count:
        return job
    holes = (replace(h, count=count) if n == hole else h for n, h in enumerate(job.holes))
    return replace(job, holes=tuple(holes))


def pilots_drilled(shop: Shop, session: Session) -> tuple[Event, ...]:
    """What a hole just drilled is the pilot of, in the pupil's work."""
    job = shop.content.job(session.job)
    finals = job.piloted_by(session.hole) if job and session.hole < len(job.holes) else ()
    return tuple(PilotsDrilled(session.pupil, session.job, final, 1, "") for final in finals)
