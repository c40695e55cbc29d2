"""When to lift the bit clear, so that chips come out and nothing runs hot."""

from __future__ import annotations

from kiosk.core.machining.depth import point_of
from kiosk.core.model import BitKind, Material
from kiosk.core.units import Length

DEEP = 3  # diameters; Metal Drilling Reference Guide: a deep hole begins here
LAST_MM = 0.5  # no lift this close to the end, where the bit comes up anyway


def lift_plan(
    material: Material, bit: BitKind, diameter: Length, depth: Length
) -> tuple[Length, ...]:
    """The depths at which to lift the bit clear before the end, in mm below the zero.

    `depth` is the depth at full diameter; the zero is the point touching the work. Empty: drill
    it in one. Sources: the material's own distance between lifts from its data; a hole over
    3 diameters is lifted at 3 and then each further diameter (Metal Drilling Reference Guide
    for the 3; common practice for the rest).
    """
    end = depth.mm + point_of(bit, diameter).mm
    lifts: list[Length] = []
    at = 0.0
    while (at := at + _stretch(material, diameter, at)) < end - LAST_MM:
        lifts.append(Length(at))
    return tuple(lifts)


def _stretch(material: Material, diameter: Length, at: float) -> float:
    """How far the bit may go on from the depth `at` before it must come up."""
    to_deep = DEEP * diameter.mm - at
    deep = to_deep if to_deep > 1e-6 else diameter.mm
    wanted = material.lift_every.mm
    return min(wanted, deep) if wanted > 0 else deep
