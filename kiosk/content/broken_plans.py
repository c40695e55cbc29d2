"""Whether the steps, taken together, still make plans that keep the house rules.

One file may be right in itself and yet move a step to where a rule forbids it. `load` tries the
jobs with a school's folder; `pillarside check` tries everything else.
"""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.core.model import Content, Level, Step
from kiosk.core.plan.compiling import compile_plan
from kiosk.core.plan.recovering import recovery_requirements
from kiosk.core.problems import Place, Problem

RULE = "house rule "


def broken_plans(content: Content, shipped: str) -> Iterator[Problem]:
    """Each house rule that a job's plan breaks, once, at the school's step that breaks it.

    `shipped` is the folder of the shipped files, in which nothing breaks a rule by itself.
    """
    seen: set[tuple[str, Place]] = set()
    own = [s for s in content.drilling.steps if not s.file.startswith(f"{shipped}/")]
    for problem in _of_plans(content):
        rule, place = problem.found.split(":")[0], _place(problem, own)
        if rule.startswith(RULE) and (rule, place) not in seen:
            seen.add((rule, place))
            yield Problem(place, problem.found, problem.allowed, problem.advice)


def _of_plans(content: Content) -> Iterator[Problem]:
    for machine in content.machines:
        for job in content.jobs:
            for hole in range(len(job.holes)):
                for level in Level:
                    made = compile_plan(content, machine, job, hole, level)
                    yield from made if isinstance(made, tuple) else ()


def _place(problem: Problem, own: list[Step]) -> Place:
    """The school's step that the problem names, else its first one, else the plan."""
    named = [step for step in own if f"step {step.id} " in problem.found]
    for step in (*named, *own):
        return Place(step.file, step.line)
    return problem.place


def unanswered(content: Content) -> Iterator[Problem]:
    """Recoveries that on some machine break a house rule, each rule once a sequence."""
    seen: set[Problem] = set()
    for machine in content.machines:
        for sequence in content.recoveries:
            for problem in recovery_requirements(sequence, machine):
                if problem not in seen:
                    seen.add(problem)
                    yield problem
