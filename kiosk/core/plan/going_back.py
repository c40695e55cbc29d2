"""Where a line of the adult's that is not right leads back to."""

from __future__ import annotations

from kiosk.core.model import Fact, Needs, Part
from kiosk.core.plan.shape import Plan, PlanStep

SET_UP_PARTS = frozenset({Part.BIT, Part.CHUCK, Part.BELT, Part.TABLE, Part.STOP})


def line_called(plan: Plan, step: str) -> PlanStep | None:
    """The step that a line of the adult's belongs to."""
    return next((s for s in plan.fresh if s.id == step), None)


def is_of_set_up(step: PlanStep) -> bool:
    """Whether what is not right there voids a kept set-up; clothes, work and guard do not."""
    return bool(SET_UP_PARTS & set(step.touches)) or step.needs is Needs.ISOLATOR_OFF


def mending_step(plan: Plan) -> PlanStep:
    """The one screen on which all that a pupil wears is put right, on any way to the check."""
    ready = (s for s in (*plan.joining, *plan.fresh) if Fact.EYES in s.makes)
    return next(ready, plan.fresh[0])


def is_mended(plan: Plan, step: str) -> bool:
    """Whether a line is put right on that one screen, and nothing else is done again."""
    line = line_called(plan, step)
    return line is not None and line.part == "ready"


def place_back(plan: Plan, path: str, at: int, step: str, is_off: bool) -> tuple[str, int]:
    """Back to a line's step, or to the one that does the same on this path.

    What was held wrongly is held anew, not only pushed again. A line that stands on the fresh path
    only means the set-up is made again. Hands go in with the isolator off: where it may be on
    again, back to turning it off.
    """
    line = line_called(plan, step)
    if is_mended(plan, step) or line is None:
        return path, at
    found = _doing(plan.path(path)[:at], line)
    if found is None:
        path, found = "fresh", _doing(plan.fresh, line)
    steps, at = plan.path(path), at if found is None else found
    if steps[at].needs is Needs.ISOLATOR_OFF and not is_off:
        at = next((i for i in range(at) if Fact.ISOLATOR_OFF in steps[i].makes), at)
    return path, at


def _doing(steps: tuple[PlanStep, ...], line: PlanStep) -> int | None:
    """The first of the steps that does what the line is about."""
    wanted = set(line.makes)
    if Fact.PUSHED in wanted or (not wanted and not is_of_set_up(line)):
        wanted = {Fact.HELD}
    same = (i for i, s in enumerate(steps) if wanted and wanted <= set(s.makes))
    own = (i for i, s in enumerate(steps) if s.id == line.id and Fact.PUSHED not in line.makes)
    return next(own, next(same, None))
