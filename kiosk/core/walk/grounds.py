"""The smallest real workshop for one shape: a machine, two jobs, one pupil, two adults."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import (
    Adult,
    Content,
    Fact,
    Group,
    Hole,
    Job,
    Level,
    Machine,
    Pupil,
    Roster,
    Sequence,
    Step,
)
from kiosk.core.plan.compiling import compile_plan, compile_recovery
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.plan.trials import Trial
from kiosk.core.rules import RULES, House, Judge, Rule
from kiosk.core.units import Length
from kiosk.core.walk.shapes import MOST_HOLES, PATHS, Shape, shape_of, squeezed

TEACHER, TECHNICIAN = Adult("a1", "Teacher", "teacher"), Adult("a2", "Technician", "technician")
WORK, OTHER = "work", "other"
_CHANGES = (1.0, -1.0, 0.5, -0.5, 2.0, 3.0)  # mm: work that wants another table height


@dataclass(frozen=True, eq=False)
class Ground:
    """A workshop to walk in. `plans`: of the job asked for and of another like it."""

    number: int
    shape: Shape
    shop: Shop
    judge: Judge
    plans: tuple[Plan, Plan]

    @property
    def plan(self) -> Plan:
        """The plan of the job that the shape is about."""
        return self.plans[0]


def ground_for(
    content: Content, shape: Shape, number: int = 0, rules: tuple[Rule, ...] = RULES
) -> Ground:
    """The ground of a shape, with its plan compiled anew from a small content."""
    trial = shape.trial
    work = _job(trial, shape.plan)
    small = replace(
        content,
        machines=(trial.machine,),
        jobs=(work,),
        drilling=Sequence("drilling", "drilling", tuple(_steps(shape.plan))),
        recoveries=_few_recoveries(content, trial.machine),
    )
    plan = _compiled(small, trial.machine, work, trial.level)
    other = _other(small, trial.machine, work, trial.level, shape)
    small = replace(small, jobs=(work, other))
    group = Group("g", "Group", (Pupil("p1", 1, trial.level),))
    shop = Shop(small, trial.machine, Roster((group,), (TEACHER, TECHNICIAN)), "walk")
    plans = (plan, _compiled(small, trial.machine, other, trial.level))
    return Ground(number, shape, shop, Judge(house_of(shop), rules), plans)


def house_of(shop: Shop) -> House:
    """What the judge knows of the machine."""
    machine = shop.machine
    return House(
        inputs=tuple(name for name, _ in machine.wiring.inputs),
        run_down_s=machine.run_down.s,
        spell_allowed=machine.spell_allowed,
        recoveries=tuple(
            (s.id, compile_recovery(shop.content, machine, s.id)) for s in shop.content.recoveries
        ),
        pilots=tuple(
            (job.id, final, hole)
            for job in shop.content.jobs
            for hole in range(len(job.holes))
            for final in job.piloted_by(hole)
        ),
        quiet=tuple((span.start_s, span.end_s) for span in shop.content.quiet),
        stopping=frozenset(c.id for c in shop.content.assessment.installation if c.out_of_use),
    )


def _compiled(content: Content, machine: Machine, job: Job, level: Level) -> Plan:
    plan = compile_plan(content, machine, job, 0, level)
    assert isinstance(plan, Plan), f"the small plan does not compile: {plan[0]}"
    return plan


def _job(trial: Trial, plan: Plan) -> Job:
    count = min(plan.holes, MOST_HOLES)
    hole: Hole = replace(trial.job.holes[trial.hole], count=count, after="")
    return replace(trial.job, id=WORK, holes=(hole,))


def _other(content: Content, machine: Machine, job: Job, level: Level, shape: Shape) -> Job:
    """A job of the same shape that wants another set-up."""
    for change in _CHANGES:
        thickness = Length(max(job.work.thickness.mm + change, 0.5))
        other = replace(job, id=OTHER, work=replace(job.work, thickness=thickness))
        plan = compile_plan(content, machine, other, 0, level)
        if not isinstance(plan, Plan) or plan.set_up == shape.plan.set_up:
            continue
        if shape_of(plan, shape.trial).signature == shape.signature:
            return other
    raise ValueError(f"no other job has the shape of {shape}")


def _steps(plan: Plan) -> Iterator[Step]:
    """The squeezed paths as written steps, so that compiling gives just these."""
    for path in PATHS:
        for step in squeezed(plan.path(path), plan):
            looked = path == "fresh" and step.id in plan.look_for
            yield _written(step, path, looked)


def _written(step: PlanStep, path: str, looked: bool) -> Step:
    return Step(
        id=step.id,
        part=step.part,
        at=() if path == "clear" else (path,),
        picture=step.picture,
        who=step.who,
        needs=step.needs,
        touches=step.touches,
        makes=step.makes,
        controls=step.controls,
        looked_for=looked,
    )


def _few_recoveries(content: Content, machine: Machine) -> tuple[Sequence, ...]:
    """One recovery for each kind: who does its steps, and what they need."""
    found: dict[object, Sequence] = {}
    for sequence in content.recoveries:
        steps = compile_recovery(content, machine, sequence.id)
        off = Fact.ISOLATOR_OFF
        found.setdefault(tuple((s.who, s.needs, off in s.makes) for s in steps), sequence)
    return tuple(found.values())


def grounds_of(
    content: Content, shapes: Iterable[Shape], rules: tuple[Rule, ...] = RULES
) -> tuple[Ground, ...]:
    """The grounds of several shapes, numbered."""
    return tuple(ground_for(content, shape, n, rules) for n, shape in enumerate(shapes))
