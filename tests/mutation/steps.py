"""The shipped content without one step, and what `check` says of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from kiosk.core.assessment import left_over
from kiosk.core.model import Content, Sequence
from kiosk.core.plan.recovering import ALL_RULE_IDS
from kiosk.core.plan.trials import outcome_of, recovery_problems, trials
from kiosk.core.problems import Problem
from kiosk.core.words import Words


def steps_with_measures(content: Content) -> tuple[tuple[str, str], ...]:
    """Sequence and step of every step that carries out a control measure."""
    sequences = (content.drilling, *content.recoveries)
    return tuple((q.id, s.id) for q in sequences for s in q.steps if s.controls)


def problems_without(content: Content, words: Words, step: tuple[str, str]) -> Iterator[Problem]:
    """What `check` finds wrong once the step is gone: links left over, recoveries, plans."""
    less = without_step(content, step)
    sequences = (less.drilling, *less.recoveries)
    yield from left_over(less.assessment, sequences, less.machines, ALL_RULE_IDS)
    yield from recovery_problems(less, words)
    for trial in trials(less):
        yield from outcome_of(less, words, trial).problems


def without_step(content: Content, step: tuple[str, str]) -> Content:
    """The content without one step of one sequence."""
    return replace(
        content,
        drilling=_without(content.drilling, step),
        recoveries=tuple(_without(each, step) for each in content.recoveries),
    )


def _without(sequence: Sequence, step: tuple[str, str]) -> Sequence:
    if sequence.id != step[0]:
        return sequence
    return replace(sequence, steps=tuple(s for s in sequence.steps if s.id != step[1]))


def first_problem(content: Content, words: Words, step: tuple[str, str]) -> str:
    """The first of them in words; empty if the content is as good without the step."""
    return next((str(p) for p in islice(problems_without(content, words, step), 1)), "")
