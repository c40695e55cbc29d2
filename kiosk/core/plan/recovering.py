"""House rules over recoveries: what is followed after a trouble, on one machine.

They live in code and can't be overridden. `content` asks `recovery_requirements` of every
sequence on every machine.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from kiosk.core.model import Machine, Needs, Sequence, Step
from kiosk.core.plan.conditions import machine_situation, stands
from kiosk.core.plan.requirements import AT_THE_WORK, HANDS_IN, RULE_IDS
from kiosk.core.problems import Place, Problem

Steps: TypeAlias = tuple[Step, ...]
Wrong: TypeAlias = Callable[[Steps], Iterator[tuple[Step | None, str]]]


@dataclass(frozen=True)
class RecoveryRule:
    """One rule: why it is there, where it comes from, and the steps that break it."""

    id: str
    reason: str
    source: str
    wrong: Wrong


def recovery_requirements(sequence: Sequence, machine: Machine) -> tuple[Problem, ...]:
    """Every house rule that the recovery breaks on this machine, with step and reason."""
    situation = machine_situation(machine)
    steps = tuple(step for step in sequence.steps if stands(step, None, situation))
    return tuple(
        Problem(_place(sequence, step), f"house rule {rule.id}: {found}", advice=rule.reason)
        for rule in RECOVERY_RULES
        for step, found in rule.wrong(steps)
    )


def _place(sequence: Sequence, step: Step | None) -> Place:
    if step is None:
        return Place(sequence.file)
    return Place(step.file or sequence.file, step.line)


def _isolator_on(steps: Steps) -> Iterator[tuple[Step, str]]:
    for step in steps:
        if not HANDS_IN.isdisjoint(step.touches) and step.needs is not Needs.ISOLATOR_OFF:
            yield step, f"step {step.id} does not ask for isolator off"


def _turning(steps: Steps) -> Iterator[tuple[Step, str]]:
    for step in steps:
        if not AT_THE_WORK.isdisjoint(step.touches) and step.needs is Needs.NOTHING:
            yield step, f"step {step.id} does not ask for still"


def _pupils_hands(steps: Steps) -> Iterator[tuple[Step, str]]:
    for step in steps:
        if step.touches and step.who != "adult":
            yield step, f"step {step.id} has a pupil touch {step.touches[0].value}"


def _no_adult_last(steps: Steps) -> Iterator[tuple[Step | None, str]]:
    last = steps[-1] if steps else None
    if last is None or last.who != "adult":
        yield last, "it does not end with an adult's step"


RECOVERY_RULES = (
    RecoveryRule(
        "hands_to_chuck",
        "a start by mistake with a hand in the chuck or at a stuck bit",
        "PUWER 1998 reg 19 and 22",
        _isolator_on,
    ),
    RecoveryRule(
        "still_before_hands",
        "a spindle running down still catches",
        "PUWER 1998 reg 11; apprentice case published by HSE",
        _turning,
    ),
    RecoveryRule(
        "adult_frees",
        "a broken or stuck bit cuts and lets go with a jerk",
        "PUWER 1998 reg 9; common practice",
        _pupils_hands,
    ),
    RecoveryRule(
        "adult_ends",
        "nothing goes on after a trouble until an adult has looked",
        "PUWER 1998 reg 9; project's adult-check rule",
        _no_adult_last,
    ),
)
ALL_RULE_IDS = tuple(dict.fromkeys((*RULE_IDS, *(rule.id for rule in RECOVERY_RULES))))
