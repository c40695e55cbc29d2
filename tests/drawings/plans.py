"""Values of plans for the pictures: of shipped machines and jobs, and at the edge."""

from __future__ import annotations

from kiosk.core.machining.worked import Value
from kiosk.core.model import Level
from kiosk.core.plan.compiling import compile_plan
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Angle, Length, SpindleSpeed
from tests.core.story import CONTENT

Pairs = tuple[tuple[str, Value], ...]


def values_of(machine: str, job: str, hole: int = 0) -> Pairs:
    """The values of a plan for a shipped job on a shipped machine."""
    found, wanted = CONTENT.machine(machine), CONTENT.job(job)
    assert found is not None
    assert wanted is not None
    plan = compile_plan(CONTENT, found, wanted, hole, Level.SHOWN)
    assert isinstance(plan, Plan), plan
    return plan.values


def with_values(pairs: Pairs, **changed: Value) -> Pairs:
    """The same values but for some."""
    return (*((name, value) for name, value in pairs if name not in changed), *changed.items())


def without(pairs: Pairs, *names: str) -> Pairs:
    """The same values but for some that are not there."""
    return tuple(pair for pair in pairs if pair[0] not in names)


STEEL = values_of("drill-1", "hook_bar")
WOOD = values_of("drill-1", "pen_block")
FINE: Pairs = (
    ("bit", "twist"),
    ("diameter", Length(1)),
    ("point_angle", Angle(118)),
    ("thickness", Length(3)),
    ("scrap", Length(3)),
    ("work_width", Length(12)),
    ("work_length", Length(300)),
    ("shape", "round bar"),
    ("way", "vice"),
    ("gap", Length(49.3)),
)
COARSE: Pairs = (
    ("bit", "hole_saw"),
    ("diameter", Length(32)),
    ("point", Length(5)),
    ("thickness", Length(100)),
    ("scrap", Length(7)),
    ("material_family", "wood"),
    ("work_width", Length(140)),
    ("work_length", Length(2400)),
    ("way", "clamps"),
    ("chuck", "keyless"),
    ("lift", Length(30)),
    ("lifts", 5),
    ("speed", SpindleSpeed(10000)),
    ("groove", 12),
    ("grooves", 12),
    ("groove_now", 1),
    ("gap", Length(166)),
)
SHALLOW: Pairs = (
    ("bit", "flat"),
    ("diameter", Length(32.5)),
    ("point", Length(14)),
    ("thickness", Length(100.5)),
    ("depth", Length(12.5)),
    ("stop", Length(26.5)),
    ("floor", Length(74)),
    ("material_family", "wood"),
    ("chuck", "keyless"),
)
NEEDLE: Pairs = (
    ("diameter", Length(1.5)),
    ("thickness", Length(3)),
    ("depth", Length(1)),
    ("point", Length(0.45)),
    ("stop", Length(1)),
    ("floor", Length(2)),
)
NONSENSE: Pairs = (
    ("bit_diameter", "eight"),
    ("thickness", Length(0)),
    ("depth", 3),
    ("groove", 99),
    ("position", ""),
    ("point_angle", Angle(400)),
    ("way", "glue"),
)
SHIPPED: dict[str, Pairs] = {
    "steel": STEEL,
    "wood": WOOD,
    "forstner": values_of("drill-1", "pen_block", 1),
    "dust": values_of("drill-2", "peg_board"),
    "dial": values_of("drill-3", "key_tag"),
}
PLANS: dict[str, Pairs] = {
    **SHIPPED,
    "no stop": with_values(WOOD, chuck="keyless", shape="tube"),
    "moved": with_values(STEEL, groove_now=2),
    "fine": FINE,
    "coarse": COARSE,
    "shallow": SHALLOW,
    "needle": NEEDLE,
    "nothing": (),
    "nonsense": NONSENSE,
}
