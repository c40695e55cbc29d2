"""Everything that could be asked of the content, tried out: every hole on every machine.

`check` walks the trials and reports what does not compile. A hole that a machine can't drill is
refused, which is no mistake; a plan that breaks a rule or leaves a place in its words empty is.
The sums of every size in every set are worked out, but only one trial is handed on of those that
differ in their numbers alone: they have the same steps, held against the same rules.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from string import Formatter

from kiosk.core.machining.speeds import band_of
from kiosk.core.machining.worked import Refused
from kiosk.core.model import BitKind, Content, Hole, Job, Level, Machine, Material, Work
from kiosk.core.plan.compiling import (
    circumstances,
    compile_plan,
    compile_recovery,
    left_out,
    piece_of,
    standing_ids,
)
from kiosk.core.plan.conditions import machine_situation
from kiosk.core.plan.figures import Piece, Sums, sums_of
from kiosk.core.plan.holding import checks_every
from kiosk.core.plan.measures import not_carried_out
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.problems import Place, Problem
from kiosk.core.units import Length
from kiosk.core.words import Words

# What a text may show in one: a belt's setting is its groove, a board's thickness is from and to.
IN_ONE = {"setting": ("groove", "grooves"), "board": ("scrap", "scrap_most")}
TEXTS = ("title", "say", "see", "note", "why", "check")

# Pieces of work that between them ask for every way of holding and every care.
WORKS = (
    Work("bar", Length(40.0), Length(6.0), Length(120.0)),
    Work("sheet", Length(90.0), Length(2.0), Length(200.0)),
    Work("block", Length(60.0), Length(45.0), Length(120.0)),
    Work("small part", Length(30.0), Length(12.0), Length(60.0)),
    Work("round bar", Length(40.0), Length(40.0), Length(120.0)),
    Work("tube", Length(45.0), Length(45.0), Length(150.0), Length(3.0)),
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


def trials(content: Content) -> Iterator[Trial]:
    """Machine by hole by level: every job first, then every material, bit, size and work.

    Of those after the jobs that lead to the same steps only the first is handed on.
    """
    yield from _of_jobs(content)
    seen: set[tuple[object, ...]] = set()
    for trial in _of_all(content):
        yield from _new(content, trial, seen)


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
                yield Trial(machine, job, hole, Level.ADULT_BESIDE, False)


def _new(content: Content, trial: Trial, seen: set[tuple[object, ...]]) -> Iterator[Trial]:
    """The trial at each level where it leads to steps that no trial before led to."""
    piece = piece_of(content, trial.machine, trial.job, trial.hole)
    if isinstance(piece, Problem):
        yield trial
        return
    sums = sums_of(piece)
    if isinstance(sums, Refused):
        about = (trial.machine.id, piece.material.id, piece.bit.id, trial.job.work.shape)
        yield from _first(trial, ("refused", *about), seen)
        return
    if _first_of_its_kind(("circumstances", *circumstances(piece, sums, content.checks)), seen):
        for level in Level:
            yield from _first(
                replace(trial, level=level), _steps(content, piece, sums, level), seen
            )


def _first(
    trial: Trial, about: tuple[object, ...], seen: set[tuple[object, ...]]
) -> Iterator[Trial]:
    if _first_of_its_kind(about, seen):
        yield trial


def _first_of_its_kind(about: tuple[object, ...], seen: set[tuple[object, ...]]) -> bool:
    known = about in seen
    seen.add(about)
    return not known


def _steps(content: Content, piece: Piece, sums: Sums, level: Level) -> tuple[object, ...]:
    """All that the rules and the words can tell apart in a plan, its numbers left out."""
    often = checks_every(level, piece.bit, piece.hole.diameter, piece.job.work, content.checks)
    steps = standing_ids(content, piece, sums, level)
    figures = tuple(figure.name for figure in sums.figures)
    dusty, through = piece.material.dust, piece.hole.is_through
    return piece.machine.id, level, often, dusty, through, steps, figures


def _asked(material: Material, bit: BitKind, work: Work) -> Job:
    """A job with every size of the bit, through and part-way; of one size if it does not suit."""
    sizes = bit.sizes or (bit.smallest, bit.largest)
    if isinstance(band_of(material, bit), Refused) or material.family not in bit.families:
        sizes = sizes[:1]
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
    sums = sums_of(piece)
    if isinstance(sums, Refused) and not (trial.is_job and _nowhere(content, trial)):
        return Outcome(refused=sums)
    plan = compile_plan(content, trial.machine, trial.job, trial.hole, trial.level)
    if isinstance(plan, tuple):
        return Outcome(problems=plan)
    assert not isinstance(sums, Refused)
    problems = (*left_out(content, piece, sums, plan), *_gaps_of(plan, words))
    return Outcome(plan, problems=problems)


def _nowhere(content: Content, trial: Trial) -> bool:
    """Whether no machine at all can drill the hole: a job that nobody can do is a mistake."""
    pieces = (piece_of(content, each, trial.job, trial.hole) for each in content.machines)
    return all(isinstance(p, Problem) or isinstance(sums_of(p), Refused) for p in pieces)


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
    """The names of the places to fill in a text; raises ValueError for a single brace."""
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def figures_in(text: str) -> set[str]:
    """The names of the figures that a text shows, those too that it shows as one with others."""
    asked = asked_in(text)
    return asked.union(*(names for name, names in IN_ONE.items() if name in asked))


def recovery_problems(content: Content, words: Words) -> Iterator[Problem]:
    """Recoveries that on some machine have no steps, do not end with an adult, or leave gaps."""
    for machine in content.machines:
        for sequence in content.recoveries:
            steps = compile_recovery(content, machine, sequence.id)
            if not steps or steps[-1].who != "adult":
                found = f"on {machine.id} it does not end with an adult's step"
                yield Problem(Place(sequence.file), found)
            yield from not_carried_out(
                content.assessment,
                sequence.id,
                steps,
                None,
                machine_situation(machine),
                f"recovery {sequence.id} on {machine.id}",
            )
            for step in steps:
                yield from gaps(step, words, sequence.file, {name for name, _ in step.values})
