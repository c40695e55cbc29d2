"""What a material gives off and how it is kept cool: facts for the technician, with sources."""

from __future__ import annotations

from kiosk.core.machining.worked import Figure
from kiosk.core.model import Material, Work

# How work of each shape is held, and why; common practice, textbooks on workholding.
HOLDS = {
    "sheet": "clamped flat on a board, clamps on both sides of the hole",
    "bar": "in a bolted vice, flat on parallels or scrap",
    "block": "in a bolted vice; clamped down if it is wider than the jaws",
    "round bar": "in a V-block, clamped down or gripped in the vice, the hole over the V",
    "tube": "in a V-block with a wooden plug inside, gripped gently",
    "small part": "in a bolted vice or hand vice against a stop, never in fingers",
}
FLUID_SOURCE = "Machinery's Handbook 31e, cutting fluids; plastics makers' guides"
HOLD_SOURCE = "common practice; college notes on V-blocks and drill vices"


def care_figures(material: Material) -> tuple[Figure, ...]:
    """Swarf, dust, fluid and heat as far as something is known."""
    swarf = Figure("swarf", material.swarf, "brush or hook, never fingers", "common practice")
    fluid = material.fluid_kind or material.fluid
    found = [swarf, Figure("fluid", fluid, f"for {material.name}", FLUID_SOURCE)]
    if material.dust_class:
        found.append(Figure("dust", material.dust_class, "extraction and cleaning", "HSE, EH40"))
    if material.heat:
        found.append(Figure("heat", material.heat, "lift clear and let it cool", "makers' guides"))
    return tuple(found)


def hold_figure(work: Work) -> Figure:
    """What holds work of this shape."""
    how = HOLDS.get(work.shape, "in a bolted vice")
    return Figure("holding", how, f"for a {work.shape}", HOLD_SOURCE)
