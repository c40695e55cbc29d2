"""The order of work at one machine, as its plans have it, and what the adult looks for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kiosk.core.model import Content, Job, Level, Machine
from kiosk.core.plan import Plan, PlanStep, compile_plan
from kiosk.core.plan.wording import named
from kiosk.core.view import Picture
from kiosk.core.words import Words
from kiosk.export.sheets.values import once, title_of

BEGINNER = Level.SHOWN
"""A sheet shows what a pupil is taken through who was shown the drill and not yet more."""


@dataclass(frozen=True)
class Shown:
    """A plan of one hole with the job that it is from."""

    job: Job
    plan: Plan


def plans_of(content: Content, machine: Machine, jobs: tuple[Job, ...]) -> tuple[Shown, ...]:
    """A plan for each hole of the jobs that the machine can drill."""
    found = (
        Shown(job, compiled)
        for job in jobs
        for hole in range(len(job.holes))
        if isinstance(compiled := compile_plan(content, machine, job, hole, BEGINNER), Plan)
    )
    return tuple(found)


def steps_of(shown: Shown) -> tuple[PlanStep, ...]:
    """All steps of one hole, from making ready to clearing up."""
    return (*shown.plan.fresh, *shown.plan.clear)


def order_of(content: Content, plans: tuple[Shown, ...], words: Words) -> tuple[str, ...]:
    """The titles of all steps that these plans have, in the order of the sequence."""
    parts = {step.id: step.part for each in plans for step in steps_of(each)}
    return once(
        title_of(words, step.id, parts[step.id])
        for step in content.drilling.steps
        if step.id in parts
    )


def looked_for(plan: Plan, words: Words) -> tuple[str, ...]:
    """The lines an adult looks at before the start, with the plan's numbers."""
    values = named(dict(plan.values), words)
    return tuple(words.say(f"step.{step}.check", **values) for step in plan.look_for)


def pictures_of(plans: tuple[Shown, ...], names: tuple[str, ...]) -> Iterator[tuple[str, Picture]]:
    """For each name the first step of the plans with that drawing: its id and its picture."""
    for name in names:
        for shown in plans:
            step = next((s for s in steps_of(shown) if s.picture == name), None)
            if step is not None:
                values = {**dict(shown.plan.values), **dict(step.values)}
                yield step.id, Picture(name, tuple(sorted(values.items())))
                break
