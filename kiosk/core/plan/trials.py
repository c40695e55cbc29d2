"""Everything that could be asked of the content, tried out: every hole on every machine.

`check` walks the trials and reports what does not compile. A hole that a machine can't drill is
refused, which is no mistake; a plan that breaks a rule or leaves a place in its words empty is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from string import Formatter

from kiosk.core.machining.worked import Refused
from kiosk.core.model import BitKind, Content, Hole, Job, Level, Machine, Material, Work
from kiosk.core.plan.compiling import compile_plan, compile_recovery, piece_of
from kiosk.core.plan.figures import sums_of
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.problems import Place, Problem
from kiosk.core.units import Length
from kiosk.core.words import Words

TEXTS = ("title", "say", "see", "note", "why", "check")

# Pieces of work that between them ask for every way of holding and every care.
WORKS = (
    Work("bar", Length(40.0), Length(6.0), Length(120.0)),
    Work("sheet", Length(90.0), Length(2.0), Length(200.0)),
    Work("block", Length(60.0), Length(45.0), Length(120.0)),
    Work("small part", Length(30.0), Length(12.0), Length(60.0)),
)
PART_WAY = Length(5.0)


@dataclass(frozen=True)
class Trial:
    """One hole for one pupil's level on one machine; `is_job` if a job of the content asks it."""

    machine: Machine
    job: Job
    hole: int
    level: Level
    is_job: bool


@dataclass(frozen=True)
class Outcome:
    """What came of a trial: a plan, a refusal (a hole that can't be drilled here), or problems."""

    plan: Plan | None = None
    refused: Refused | None = None
    problems: tuple[Problem, ...] = ()


def trials(content: Content) -> tuple[Trial, ...]:
    """Machine by hole by level: every job first, then every material, bit, size and work."""
    return (*_of_jobs(content), *_of_all(content))


def _of_jobs(content: Content) -> Iterator[Trial]:
    for machine in content.machines:
        for job in content.jobs:
            for hole in range(len(job.holes)):
                yield from (Trial(machine, job, hole, level, True) for level in Level)


def _of_all(content: Content) -> Iterator[Trial]:
    jobs = [
        _asked(material, bit, work)
        for material in content.materials
        for bit in content.bits
        for work in WORKS
    ]
    for machine in content.machines:
        for job in jobs:
            for hole in range(len(job.holes)):
                yield from (Trial(machine, job, hole, level, False) for level in Level)


def _asked(material: Material, bit: BitKind, work: Work) -> Job:
    """A job with every size of the bit, through and part-way."""
    sizes = bit.sizes or (bit.smallest, bit.largest)
    holes = tuple(
        Hole(f"{size.mm:g} mm", bit.id, size, depth, 1)
        for size in sizes
        for depth in (None, PART_WAY)
    )
    name = f"{bit.name} in {material.name}, {work.shape} {work.thickness.mm:g} mm thick"
    return Job(name, name, material.id, work, holes)


def outcome_of(content: Content, words: Words, trial: Trial) -> Outcome:
    """What comes of the trial."""
    piece = piece_of(content, trial.machine, trial.job, trial.hole)
    if isinstance(piece, Problem):
        return Outcome(problems=(piece,))
    sums = None if trial.is_job else sums_of(piece)
    if isinstance(sums, Refused):
        return Outcome(refused=sums)
    plan = compile_plan(content, trial.machine, trial.job, trial.hole, trial.level)
    if isinstance(plan, tuple):
        return Outcome(problems=plan)
    return Outcome(plan, problems=tuple(_gaps_of(plan, words)))


def _gaps_of(plan: Plan, words: Words) -> Iterator[Problem]:
    seen: set[str] = set()
    given = {name for name, _ in plan.values}
    for path in (plan.fresh, plan.joining, plan.further, plan.clear):
        for step in path:
            if step.id not in seen:
                yield from gaps(step, words, f"plan of {plan.job}", given)
            seen.add(step.id)


def gaps(step: PlanStep, words: Words, where: str, given: set[str]) -> Iterator[Problem]:
    """Places in a step's texts that no given value fills, and texts that are not there."""
    for name in TEXTS:
        key = f"step.{step.id}.{name}"
        if name in TEXTS[:3] and not words.has(key):
            yield Problem(Place(where), f"no words for {key}")
        for place in sorted(asked_in(words.texts.get(key, "")) - given):
            yield Problem(Place(where), f"nothing fills {{{place}}} in {key}")


def asked_in(text: str) -> set[str]:
    """The names of the places to fill in a text."""
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def recovery_problems(content: Content, words: Words) -> Iterator[Problem]:
    """Recoveries that on some machine have no steps, do not end with an adult, or leave gaps."""
    for machine in content.machines:
        for sequence in content.recoveries:
            steps = compile_recovery(content, machine, sequence.id)
            if not steps or steps[-1].who != "adult":
                found = f"on {machine.id} it does not end with an adult's step"
                yield Problem(Place(sequence.file), found)
            for step in steps:
                yield from gaps(step, words, sequence.file, {name for name, _ in step.values})
