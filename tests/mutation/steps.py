"""The content without one step, and what `check` says of it, on machines of every kind.

The shipped machines do not have all that a school may have. Others are made of them here, so that
every step stands in some plan.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from kiosk.core.assessment import left_over
from kiosk.core.model import Content, Habit, Machine, Sequence
from kiosk.core.plan.recovering import ALL_RULE_IDS
from kiosk.core.plan.shape import Plan
from kiosk.core.plan.trials import Trial, outcome_of, recovery_problems, trials
from kiosk.core.problems import Problem
from kiosk.core.words import Words

Named = tuple[str, str]  # a sequence, and one of its steps


def steps_with_measures(content: Content) -> tuple[Named, ...]:
    """Sequence and step of every step that carries out a control measure."""
    sequences = (content.drilling, *content.recoveries)
    return tuple((q.id, s.id) for q in sequences for s in q.steps if s.controls)


def with_all_machines(content: Content) -> Content:
    """The content with a machine of every habit, with a depth stop and without."""
    first, *others = content.machines
    made = (_like(first, habit, stop) for habit in Habit for stop in (True, False))
    keyless = replace(first, id="keyless", keyed_chuck=not first.keyed_chuck)
    return replace(content, machines=(first, *others, *made, keyless))


def _like(machine: Machine, habit: Habit, stop: bool) -> Machine:
    name = f"{habit.name.lower()}_{'stop' if stop else 'tape'}"
    return replace(machine, id=name, habit=habit, depth_stop=stop)


def plans_of(content: Content, words: Words) -> Iterator[tuple[Trial, Plan]]:
    """Every trial that leads to a plan."""
    for trial in trials(content):
        plan = outcome_of(content, words, trial).plan
        if plan is not None:
            yield trial, plan


def ids_in(plan: Plan) -> frozenset[str]:
    """The ids of all steps of a plan."""
    return frozenset(s.id for p in (plan.fresh, plan.joining, plan.further, plan.clear) for s in p)


def problems_without(
    content: Content, words: Words, step: Named, where: Trial | None
) -> Iterator[Problem]:
    """What `check` finds wrong once the step is gone: links left over, recoveries, plans."""
    less = without_step(content, step)
    if where is not None:
        yield from outcome_of(less, words, where).problems
    yield from recovery_problems(less, words)
    sequences = (less.drilling, *less.recoveries)
    yield from left_over(less.assessment, sequences, less.machines, ALL_RULE_IDS)


def without_step(content: Content, step: Named) -> Content:
    """The content without one step of one sequence."""
    return replace(
        content,
        drilling=_without(content.drilling, step),
        recoveries=tuple(_without(each, step) for each in content.recoveries),
    )


def _without(sequence: Sequence, step: Named) -> Sequence:
    if sequence.id != step[0]:
        return sequence
    return replace(sequence, steps=tuple(s for s in sequence.steps if s.id != step[1]))


def first_problem(content: Content, words: Words, step: Named, where: Trial | None) -> str:
    """The first of them in words; empty if the content is as good without the step."""
    found = problems_without(content, words, step, where)
    return next((str(p) for p in islice(found, 1)), "")
