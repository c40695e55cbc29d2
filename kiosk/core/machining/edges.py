"""How near an edge a hole may come, and how wide work may be before it meets the column."""

from __future__ import annotations

from kiosk.core.machining.bounds import over_nought
from kiosk.core.machining.motor import reach_of_end
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import Machine, Material, Work
from kiosk.core.units import Length

BRITTLE_EDGE = 2.0  # diameters, rim of the hole to edge; polycarbonate fabricator's sheet, 1.5-2
PLAIN_EDGE = 1.5  # the same elsewhere: its middle 2 diameters in; AC 43.13-1B for rivet holes
BRITTLE_SOURCE = "polycarbonate fabricator's sheet, 1.5 to 2 diameters; 2 taken"
PLAIN_SOURCE = "AC 43.13-1B, middle of the hole 2 diameters from the edge"


def edge_distance(material: Material, diameter: Length) -> Length:
    """From the rim of the hole to the edge of the work, mm: 2 diameters if brittle, else 1.5."""
    share = BRITTLE_EDGE if material.brittle else PLAIN_EDGE
    return Length(share * over_nought("diameter", diameter))


def edge_figure(material: Material, diameter: Length) -> Figure:
    """The distance to the edge with its working."""
    rim = edge_distance(material, diameter)
    share = rim.mm / diameter.mm
    middle = Length(rim.mm + diameter.mm / 2)
    working = f"{share:g} × {written(diameter)} = {written(rim)}, its middle {written(middle)} in"
    return Figure("edge", rim, working, BRITTLE_SOURCE if material.brittle else PLAIN_SOURCE)


def edge_refused(material: Material, diameter: Length, work: Work) -> Refused | None:
    """Looks at a hole in the middle of the narrower way across, the best place there is."""
    across = min(work.width, work.length)
    rim = edge_distance(material, diameter).mm if material.brittle else 0.0
    least = Length(diameter.mm + 2 * rim)
    if least < across:
        return None
    wrong = f"a {written(diameter)} hole is too near the edge: the work is {written(across)} across"
    largest = Length(across.mm * diameter.mm / least.mm)
    if material.brittle:
        wrong += f", and {material.name} wants {written(Length(rim))} from hole to edge"
        return Refused(wrong, f"a hole under {written(largest)}, or wider work")
    return Refused(wrong, "wider work, or a smaller hole")


def throat_refused(machine: Machine, work: Work) -> Refused | None:
    """Why work is too wide to bring its middle under the bit, or None."""
    half = min(work.width.mm, work.length.mm) / 2
    excess = half - machine.throat.mm
    if excess <= 0:
        return None
    wrong = (
        f"not on this machine: the middle of the work is {written(Length(half))} in, the column"
        f" stands {written(machine.throat)} from the bit, {written(Length(excess))} less"
    )
    return Refused(wrong, f"work {written(Length(2 * machine.throat.mm))} across or less")


def end_figure(machine: Machine, work: Work) -> Figure:
    """How far the work's end reaches from a hole in its middle, and whether the column stops it."""
    end = reach_of_end(work)
    meets = end >= machine.throat
    way = "the column stops it" if meets else "it swings clear round: it needs a stop"
    working = f"half of {written(Length(2 * end.mm))}; the column is {written(machine.throat)} off"
    return Figure("end", end, f"{working}, so {way}", "geometry, hole in the middle")
