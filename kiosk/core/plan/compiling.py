"""Compiles the drilling sequence for one machine, job, hole and pupil's level."""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.core.machining.vice import holding_way
from kiosk.core.machining.worked import Refused, Value
from kiosk.core.model import Checks, Content, Job, Level, Machine, Step
from kiosk.core.plan.conditions import Situation, machine_situation, situation_of, stands
from kiosk.core.plan.figures import Piece, Sums, machine_values, sums_of, values_of
from kiosk.core.plan.holding import SHIPPED, checks_every, why_adult_beside
from kiosk.core.plan.measures import PATHS, not_carried_out
from kiosk.core.plan.requirements import plan_requirements
from kiosk.core.plan.shape import Plan, PlanStep, SetUp
from kiosk.core.problems import Place, Problem, nearest
from kiosk.core.units import Length

Values = tuple[tuple[str, Value], ...]


def compile_plan(
    content: Content, machine: Machine, job: Job, hole: int, level: Level
) -> Plan | tuple[Problem, ...]:
    """The plan for hole number `hole` (0 first) of the job, or every reason why there is none.

    A plan that breaks a house rule is never returned.
    """
    piece = piece_of(content, machine, job, hole)
    if isinstance(piece, Problem):
        return (piece,)
    sums = sums_of(piece)
    if isinstance(sums, Refused):
        return (_problem(job, hole, sums.wrong, sums.nearest),)
    plan = _plan(content, piece, sums, hole, level)
    return plan_requirements(plan) or plan


def piece_of(content: Content, machine: Machine, job: Job, hole: int) -> Piece | Problem:
    """The hole with its material and bit, or what cannot be found."""
    if not 0 <= hole < len(job.holes):
        allowed = f"hole 1 to {len(job.holes)}"
        return Problem(Place(job.file or job.id), f"hole {hole + 1}", allowed)
    wanted = job.holes[hole]
    material, bit = content.material(job.material), content.bit(wanted.bit)
    if material is None:
        return _unknown(job, "material", job.material, tuple(m.id for m in content.materials))
    if bit is None:
        return _unknown(job, "bit", wanted.bit, tuple(b.id for b in content.bits))
    return Piece(machine, material, bit, job, wanted)


def _unknown(job: Job, what: str, found: str, allowed: tuple[str, ...]) -> Problem:
    place = Place(job.file or job.id)
    return Problem(place, f"{what} {found!r}", ", ".join(allowed), nearest(found, allowed))


def _problem(job: Job, hole: int, wrong: str, near: str) -> Problem:
    found = f"hole {hole + 1} ({job.holes[hole].id}): {wrong}"
    return Problem(Place(job.file or job.id), found, advice=f"nearest: {near}" if near else "")


def _plan(content: Content, piece: Piece, sums: Sums, hole: int, level: Level) -> Plan:
    machine, job = piece.machine, piece.job
    way = holding_way(machine, job.work)
    at_drill = "beside" if is_beside(content, piece, level) else "alone"
    values = values_of(piece, sums, way, content.assessment.eye_protection)
    standing = _standing(content, piece, sums, way, level)
    return Plan(
        machine=machine.id,
        job=job.id,
        hole=hole,
        holes=piece.hole.count,
        level=level,
        checks_every=_checks_every(content, piece, sums, way, level),
        set_up=_set_up(piece, sums, way),
        figures=sums.figures,
        values=(*values, ("at_drill", at_drill)),
        fresh=_path(standing, "fresh"),
        joining=_path(standing, "joining"),
        further=_path(standing, "further"),
        clear=tuple(plan_step(s) for s in standing if s.part == "clear"),
        look_for=tuple(s.id for s in standing if s.looked_for and "fresh" in s.at),
    )


def is_beside(content: Content, piece: Piece, level: Level) -> bool:
    """Whether the adult who has looked stays beside: by the pupil's level, or by bit and work.

    Where a school asks for a look at every hole, that is all it asks for.
    """
    bit, diameter, work = piece.bit, piece.hole.diameter, piece.job.work
    asked = why_adult_beside(bit, diameter, work, content.checks)
    return level is Level.ADULT_BESIDE or bool(asked)


def _standing(
    content: Content, piece: Piece, sums: Sums, way: str, level: Level
) -> tuple[Step, ...]:
    """The steps of the sequence that stand for this hole and this level."""
    situation = _situation(piece, sums, way)
    return tuple(step for step in content.drilling.steps if stands(step, level, situation))


def standing_ids(content: Content, piece: Piece, sums: Sums, level: Level) -> tuple[str, ...]:
    """The ids of the steps that stand for this hole and this level, in their order."""
    way = holding_way(piece.machine, piece.job.work)
    return tuple(step.id for step in _standing(content, piece, sums, way, level))


def left_out(content: Content, piece: Piece, sums: Sums, plan: Plan) -> Iterator[Problem]:
    """Control measures that the plan should carry out and does not, with the path."""
    situation = _situation(piece, sums, holding_way(piece.machine, piece.job.work))
    where = f"plan of {plan.job}, hole {plan.hole + 1}, {plan.level.value}"
    for path in PATHS:
        yield from not_carried_out(
            content.assessment, path, plan.path(path), plan.level, situation, f"{where}, {path}"
        )


def circumstances(piece: Piece, sums: Sums, checks: Checks = SHIPPED) -> tuple[object, ...]:
    """All of a hole that decides which steps stand and which values there are, numbers apart."""
    way = holding_way(piece.machine, piece.job.work)
    bit, diameter, work = piece.bit, piece.hole.diameter, piece.job.work
    beside = why_adult_beside(bit, diameter, work, checks)
    figures = tuple(figure.name for figure in sums.figures)
    return (*_situation(piece, sums, way).values(), beside, figures)


def _checks_every(content: Content, piece: Piece, sums: Sums, way: str, level: Level) -> str:
    situation, checks = _situation(piece, sums, way), content.checks
    bit, diameter, work = piece.bit, piece.hole.diameter, piece.job.work
    return checks_every(level, bit, diameter, work, checks, situation)


def _set_up(piece: Piece, sums: Sums, way: str) -> SetUp:
    table = f"{piece.job.work.thickness.mm:g} mm work"
    stop = sums.stop.stop.value if sums.stop else None
    assert stop is None or isinstance(stop, Length)
    return SetUp(
        groove=sums.groove.groove,
        bit=piece.bit.id,
        diameter=piece.hole.diameter,
        table=table,
        stop=stop,
        way=way,
    )


def _situation(piece: Piece, sums: Sums, way: str) -> Situation:
    found = situation_of(piece.machine, piece.material, piece.bit, piece.hole, piece.job.work)
    return {**found, "way": way, "lift": "yes" if sums.lifts else "no"}


def _path(standing: tuple[Step, ...], name: str) -> tuple[PlanStep, ...]:
    return tuple(plan_step(s) for s in standing if name in s.at)


def plan_step(step: Step, values: Values = ()) -> PlanStep:
    """The step as it stands in a plan; a recovery's has no plan, so it carries its values."""
    return PlanStep(
        id=step.id,
        part=step.part,
        who=step.who,
        needs=step.needs,
        touches=step.touches,
        makes=step.makes,
        controls=step.controls,
        picture=step.picture,
        values=values,
    )


def compile_recovery(content: Content, machine: Machine, trouble: str) -> tuple[PlanStep, ...]:
    """The steps to follow after a trouble on this machine; none for an unknown trouble."""
    sequence = content.recovery(trouble)
    if sequence is None:
        return ()
    situation, values = machine_situation(machine), tuple(machine_values(machine).items())
    return tuple(plan_step(s, values) for s in sequence.steps if stands(s, None, situation))
