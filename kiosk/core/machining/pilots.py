"""The small hole that goes first, where a bit's blunt middle would push rather than cut."""

from __future__ import annotations

from kiosk.core.machining.worked import Figure
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Material
from kiosk.core.units import Length

PILOT_FROM = Length(8.0)  # an acrylic maker thins points from 8 mm; common practice in metal
LEAST_SHARE = 0.18  # the chisel edge; Machinery's Handbook 31e, standard drill
MOST_SHARE = 1 / 3  # of the diameter; over a half it is boring (a machinists' journal)
WANTED_SHARE = 1 / 4  # Walker, Modern Metalworking
PILOT_SOURCE = "Walker, Modern Metalworking, 1/4 of the diameter; others 1/3; chisel edge 0.18"


def pilot_plan(material: Material, bit: BitKind, diameter: Length) -> tuple[Length, ...]:
    """The sizes to drill first, in mm: one pilot in metal over 8 mm, else none.

    The size of the set nearest to a quarter of the diameter that is wider than the chisel edge
    (0.18 of the diameter) and no wider than a third. None in wood, where a bit with a spur or a
    centre finds its own way, and in plastic, where a second bit grabs in the hole.
    """
    if material.family != "metal" or not bit.chisel_edge or diameter <= PILOT_FROM:
        return ()
    least, most = LEAST_SHARE * diameter.mm, MOST_SHARE * diameter.mm
    fitting = [size for size in bit.sizes if least <= size.mm <= most + 1e-9]
    wanted = WANTED_SHARE * diameter.mm
    best = min(fitting, key=lambda size: abs(size.mm - wanted), default=None)
    return () if best is None else (best,)


def pilot_figure(material: Material, bit: BitKind, diameter: Length) -> Figure | None:
    """The pilot with its working, or None where none is wanted."""
    pilots = pilot_plan(material, bit, diameter)
    if not pilots:
        return None
    quarter = Length(WANTED_SHARE * diameter.mm)
    chisel = Length(LEAST_SHARE * diameter.mm)
    working = (
        f"{written(diameter)} / 4 = {written(quarter)}, over the chisel edge of {written(chisel)};"
        f" {written(pilots[0])} is in the set. Drill it as a hole of its own"
    )
    return Figure("pilot", pilots[0], working, PILOT_SOURCE)
