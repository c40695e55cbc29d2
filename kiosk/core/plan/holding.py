"""Which work asks for an adult beside, and how often an adult looks.

`compiling` asks these. The figures are common practice in school workshops; a machine's own
manual and the school's risk assessment come first.
"""

from __future__ import annotations

from kiosk.core.model import BitKind, Checks, Level, Work
from kiosk.core.plan.conditions import Situation, all_hold
from kiosk.core.units import Length

SHIPPED = Checks()


def why_adult_beside(
    bit: BitKind,
    diameter: Length,
    work: Work,
    checks: Checks = SHIPPED,
    situation: Situation | None = None,
) -> str:
    """Why an adult stands beside whatever the level, or an empty string."""
    if bit.adult_beside:
        return f"a {bit.name} grabs"
    if diameter > checks.over:
        return f"over {checks.over.mm:g} mm"
    if work.shape == "sheet" and work.thickness < checks.sheet_under:
        return f"sheet under {checks.sheet_under.mm:g} mm"
    if work.shape == "small part" or max(work.width, work.length) < checks.work_under:
        return f"small work, under {checks.work_under.mm:g} mm long"
    asked = situation is not None and any(all_hold(w, situation) for w in checks.where)
    return "this school asks for it" if asked else ""


def checks_every(
    level: Level,
    bit: BitKind,
    diameter: Length,
    work: Work,
    checks: Checks = SHIPPED,
    situation: Situation | None = None,
) -> str:
    """How often an adult must look: every `hole`, once a `session`, or once a `set-up`.

    Source: the project's adult-check rule; a school may tighten it, never loosen it.
    """
    beside = why_adult_beside(bit, diameter, work, checks, situation)
    return "hole" if beside else checks.at(level)
