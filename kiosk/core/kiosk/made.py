"""Jobs that teachers made at the screen: a part of the state, and its fold."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import Entry, JobDropped, JobHoleAdded, JobMade
from kiosk.core.model import Hole, Job, Work
from kiosk.core.units import Length
from kiosk.core.values import replace

PREFIX = "made_"  # of the ids of jobs made at the screen: no file may have such a name
HOLE_NAME, PILOT_NAME = "hole_", "pilot_"  # and a number: a hole, and the pilot of that hole


@dataclass(frozen=True)
class MadeJob:
    """A job and the group it was made for."""

    group: str
    job: Job


@dataclass(frozen=True)
class Made:
    """The jobs made, the oldest first, and how many there ever were."""

    jobs: tuple[MadeJob, ...] = ()
    count: int = 0

    def find(self, id: str) -> MadeJob | None:
        """The job made with this id."""
        return next((made for made in self.jobs if made.job.id == id), None)

    def is_for(self, job: str, group: str) -> bool:
        """Whether a job may be offered to a group: one from a file, or made for it."""
        made = self.find(job)
        return made is None or made.group == group


def advance_made(made: Made, entry: Entry) -> Made:
    """The part after the entry."""
    match entry.event:
        case JobMade() as event:
            new = MadeJob(event.group, job_of(event))
            return Made((*made.jobs, new), made.count + 1)
        case JobHoleAdded() as added:
            changed = (_with(m, added) if m.job.id == added.job else m for m in made.jobs)
            return replace(made, jobs=tuple(changed))
        case JobDropped(job):
            return replace(made, jobs=tuple(m for m in made.jobs if m.job.id != job))
    return made


def job_of(event: JobMade, holes: tuple[Hole, ...] = ()) -> Job:
    """The job that the event tells of; its name is made of its material and its number."""
    width, thickness = Length.from_um(event.width), Length.from_um(event.thickness)
    work = Work(event.shape, width, thickness, Length.from_um(event.length))
    return Job(event.job, "", event.material, work, holes, invented=False)


def _with(made: MadeJob, event: JobHoleAdded) -> MadeJob:
    hole = hole_of(event, made.job.holes)
    return replace(made, job=replace(made.job, holes=(*made.job.holes, hole)))


def hole_of(event: JobHoleAdded, before: tuple[Hole, ...]) -> Hole:
    """The kind of hole that the event tells of; it comes after its pilot, if it has one."""
    depth = Length.from_um(event.depth) if event.depth else None
    pilot = event.hole.replace(HOLE_NAME, PILOT_NAME)
    after = pilot if pilot in {h.id for h in before} else ""
    return Hole(event.hole, event.bit, Length.from_um(event.um), depth, event.count, after)
