"""What of a plan matters to `decide` and to the rules: its shape.

Two plans of one shape behave alike whatever their numbers and words. Of a step the kiosk
reads what it is, of the step before it who does it and whether hands go in, of the step after it
whether it is the check: so a run of steps that are read alike is squeezed to two.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import TypeAlias

from kiosk.core.model import Fact, Machine, Part
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.plan.trials import Trial
from kiosk.core.rules.past import made_by

MOST_HOLES = 3  # the first, a later one, the last
PATHS = ("fresh", "joining", "further", "clear")
SET_UP = frozenset({Part.BIT, Part.CHUCK, Part.BELT, Part.TABLE, Part.STOP})

Signature: TypeAlias = tuple[object, ...]


@dataclass(frozen=True)
class Features:
    """What of a machine matters: inputs wired, spells, a run-down to wait for."""

    inputs: tuple[str, ...]
    spell: bool
    run_down: bool


@dataclass(frozen=True)
class Shape:
    """A shape, and the first trial that was found to have it."""

    features: Features
    signature: Signature
    plan: Plan
    trial: Trial

    def __str__(self) -> str:
        trial, hole = self.trial, self.trial.job.holes[self.trial.hole]
        size = f"{hole.diameter.mm:g} mm {hole.bit}"
        deep = "through" if hole.depth is None else f"{hole.depth.mm:g} mm deep"
        who = f"a pupil at level {trial.level.value}"
        wired = ", ".join(self.features.inputs) or "none"
        where = f"machine {trial.machine.id} (contacts: {wired}), material {trial.job.material}"
        return f"{where}, bit {size}, {deep}, {self.plan.holes} of them, {who}"


def features_of(machine: Machine) -> Features:
    """What of a machine matters to what may happen at it."""
    inputs = tuple(sorted(name for name, _ in machine.wiring.inputs))
    return Features(inputs, machine.spell_allowed, machine.run_down.s > 0)


def shape_of(plan: Plan, trial: Trial) -> Shape:
    """The shape of a plan."""
    values = dict(plan.values)
    signature = (
        plan.checks_every,
        min(plan.holes, MOST_HOLES),
        plan.set_up.stop is not None,
        values.get("chuck") == "keyed",
        tuple(tuple(signed(s, plan) for s in squeezed(plan.path(p), plan)) for p in PATHS),
    )
    return Shape(features_of(trial.machine), signature, plan, trial)


def is_dusty(shape: Shape) -> bool:
    """Whether the material makes dust: then one thing more is asked for, and nothing less."""
    return dict(shape.plan.values).get("dust") == "yes"


def signed(step: PlanStep, plan: Plan) -> Signature:
    """All that is read of a step, by the kiosk or by a rule; dust apart, see `is_dusty`."""
    touches = tuple(sorted(part.value for part in step.touches))
    made = made_by(step, plan) - {Fact.DUST_CONTROLLED}
    return (*_read(step, plan), touches, tuple(sorted(fact.value for fact in made)))


def _read(step: PlanStep, plan: Plan) -> Signature:
    """What the kiosk reads of a step."""
    part = step.part if step.part in ("ready", "check", "drill", "clear") else "work"
    off = Fact.ISOLATOR_OFF in step.makes
    changes = not SET_UP.isdisjoint(step.touches)
    return (part, step.who, step.needs.value, off, changes, step.id in plan.look_for)


def squeezed(path: tuple[PlanStep, ...], plan: Plan) -> tuple[PlanStep, ...]:
    """The path with each run of steps read alike as at most two."""
    return tuple(_runs(path, plan))


def _runs(path: tuple[PlanStep, ...], plan: Plan) -> Iterator[PlanStep]:
    for _, steps in groupby(path, lambda step: _read(step, plan)):
        run = tuple(steps)
        if len(run) > 1:
            yield _as_one(run[:-1])
        yield run[-1]


def _as_one(run: tuple[PlanStep, ...]) -> PlanStep:
    """Several steps as one that touches and makes all that they do."""
    touches = tuple(dict.fromkeys(part for step in run for part in step.touches))
    makes = tuple(dict.fromkeys(fact for step in run for fact in step.makes))
    first = run[0]
    return PlanStep(
        first.id,
        first.part,
        first.who,
        first.needs,
        touches,
        makes,
        first.controls,
        first.picture,
        first.values,
    )


def shapes_among(found: Iterable[Shape]) -> tuple[Shape, ...]:
    """Each shape once. One with dust stands for the same without: it asks for one thing more."""
    kept: dict[tuple[Features, Signature], Shape] = {}
    for shape in found:
        key = (shape.features, shape.signature)
        if key not in kept or (is_dusty(shape) and not is_dusty(kept[key])):
            kept[key] = shape
    return tuple(kept.values())


def size_of(shape: Shape) -> tuple[int, int]:
    """How far a shape is to walk: contacts first, then steps."""
    steps = sum(len(squeezed(shape.plan.path(path), shape.plan)) for path in PATHS)
    return len(shape.features.inputs), steps
