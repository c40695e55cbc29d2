"""Control measures held against a plan's paths and the recoveries: each is carried out there.

The assessment says of a measure where one of the steps must carry it out. So a step that is taken
away is missed wherever no other does the same.
"""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.core.model import Assessment, Level
from kiosk.core.plan.conditions import Situation, stands
from kiosk.core.plan.shape import PlanStep
from kiosk.core.problems import Place, Problem

PATHS = ("fresh", "joining", "further", "clear")


def not_carried_out(
    assessment: Assessment,
    at: str,
    steps: tuple[PlanStep, ...],
    level: Level | None,
    situation: Situation,
    where: str,
) -> Iterator[Problem]:
    """The control measures that stand at this path or recovery, and that no step carries out."""
    done = {name for step in steps for name in step.controls}
    for hazard in assessment.hazards:
        for control in hazard.controls:
            if at not in control.at or control.id in done or not stands(control, level, situation):
                continue
            place = Place(control.file or assessment.file, control.line)
            found = f"{where}: no step carries out {control.id!r} against {hazard.name}"
            yield Problem(place, found, advice=control.text)
