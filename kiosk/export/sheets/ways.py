"""The order of work at one machine, as its plans have it, and what the adult looks for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kiosk.core.model import Content, Job, Level, Machine
from kiosk.core.plan import Plan, PlanStep, compile_plan
from kiosk.core.plan.wording import named
from kiosk.core.view import Picture
from kiosk.core.words import Words
from kiosk.export.sheets.values import Row, title_of

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


def order_of(content: Content, plans: tuple[Shown, ...], words: Words) -> tuple[Row, ...]:
    """All steps that these plans have, in the order of the sequence: their titles, and the control
    measures that each is the first to carry out.
    """
    parts = {step.id: step.part for each in plans for step in steps_of(each)}
    rows: dict[str, list[str]] = {}
    told = set[str]()
    for step in content.drilling.steps:
        if step.id in parts:
            new = [id for id in step.controls if id not in told]
            told.update(new)
            measures = rows.setdefault(title_of(words, step.id, parts[step.id]), [])
            measures += [words.say(f"control.{id}") for id in new]
    return tuple(Row(title, "; ".join(measures)) for title, measures in rows.items())


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
