"""Whether a hole can be drilled here at all: bit, set, chuck, flute, stroke, table and edge.

`plan` asks `fits` before any other sum.
"""

from __future__ import annotations

from kiosk.core.machining.bounds import unfit_hole, unfit_work
from kiosk.core.machining.depth import OVERRUN, point_of
from kiosk.core.machining.edges import edge_refused, throat_refused
from kiosk.core.machining.table import reach_of, table_refused
from kiosk.core.machining.threads import nearest_sizes, size_error
from kiosk.core.machining.worked import Refused
from kiosk.core.machining.writing import listed, written
from kiosk.core.model import BitKind, Machine, Material, Work
from kiosk.core.units import Length

_SAME_MM = 1e-6


def fits(
    machine: Machine,
    material: Material,
    bit: BitKind,
    diameter: Length,
    work: Work,
    depth: Length | None,
) -> Refused | None:
    """The first reason why this hole can't be drilled on this machine, or None.

    `depth` is the depth at full diameter, None for a through hole. Looks at the numbers
    themselves, the bit's material and range, the sizes in the set, the chuck, the flute, the
    stroke (travel = depth or thickness, point and 2 mm overrun), the table, the column and the
    distance to the edge (2 diameters in brittle material).
    """
    return (
        unfit_hole(diameter, depth)
        or unfit_work(work)
        or _material_refused(material, bit)
        or _work_refused(bit, work, depth)
        or _range_refused(bit, diameter)
        or _set_refused(bit, diameter)
        or _chuck_refused(machine, bit, diameter)
        or _flute_refused(bit, diameter, work, depth)
        or _stroke_refused(machine, bit, diameter, work, depth)
        or table_refused(machine, bit, diameter, work, depth is None)
        or throat_refused(machine, work)
        or edge_refused(material, diameter, work)
    )


def _material_refused(material: Material, bit: BitKind) -> Refused | None:
    if material.family in bit.families:
        return None
    return Refused(f"a {bit.name} is not for {material.name}", f"for {', '.join(bit.families)}")


def _work_refused(bit: BitKind, work: Work, depth: Length | None) -> Refused | None:
    if bit.through_only and depth is not None:
        return Refused(f"a {bit.name} goes right through, not {written(depth)} deep", "through")
    if bit.thickest is None or work.thickness <= bit.thickest:
        return None
    excess = Length(work.thickness.mm - bit.thickest.mm)
    wrong = (
        f"a {bit.name} is for work up to {written(bit.thickest)} thick, this is"
        f" {written(work.thickness)}, {written(excess)} more"
    )
    return Refused(wrong, f"{written(bit.thickest)} thick, or another kind of bit")


def _range_refused(bit: BitKind, diameter: Length) -> Refused | None:
    if bit.smallest <= diameter <= bit.largest:
        return None
    end = bit.smallest if diameter < bit.smallest else bit.largest
    span = f"{written(bit.smallest)} to {written(bit.largest)}"
    wrong = f"a {bit.name} goes from {span}, not {written(diameter)}"
    return Refused(wrong, f"a {written(end)} {bit.name}")


def _set_refused(bit: BitKind, diameter: Length) -> Refused | None:
    near = nearest_sizes(bit, diameter)
    if not near or abs(near[0].mm - diameter.mm) < _SAME_MM:
        return None
    wrong = f"there is no {written(diameter)} {bit.name} in the set"
    return Refused(wrong, f"{listed(near)}, {size_error(near[0], diameter)}")


def _chuck_refused(machine: Machine, bit: BitKind, diameter: Length) -> Refused | None:
    shank = bit.shank or diameter
    if shank <= machine.chuck_capacity:
        return None
    excess = Length(shank.mm - machine.chuck_capacity.mm)
    wrong = (
        f"not on this machine: the chuck takes {written(machine.chuck_capacity)}, and a"
        f" {written(diameter)} {bit.name} has a shank of {written(shank)}, {written(excess)} more"
    )
    return Refused(wrong, f"{written(machine.chuck_capacity)} or less in the chuck")


def _flute_refused(
    bit: BitKind, diameter: Length, work: Work, depth: Length | None
) -> Refused | None:
    """A hole deeper than the flute packs its chips; the point is part of the flute."""
    reach = reach_of(bit, diameter)
    if reach is None:
        return None
    full = depth.mm if depth else work.thickness.mm
    excess = full + point_of(bit, diameter).mm - reach.flute.mm
    if excess <= 0:
        return None
    wrong = (
        f"a {written(diameter)} {bit.name} has {written(reach.flute)} of flute, the hole needs"
        f" {written(Length(reach.flute.mm + excess))}, {written(Length(excess))} more"
    )
    return Refused(wrong, f"{written(Length(max(full - excess, 0.0)))} deep, or a longer bit")


def _stroke_refused(
    machine: Machine, bit: BitKind, diameter: Length, work: Work, depth: Length | None
) -> Refused | None:
    full = depth.mm if depth else work.thickness.mm + OVERRUN.mm
    travel = full + point_of(bit, diameter).mm
    excess = travel - machine.stroke.mm
    if excess <= 0:
        return None
    wrong = (
        f"not on this machine: the hole needs {written(Length(travel))} of travel, the spindle"
        f" has {written(machine.stroke)}, {written(Length(excess))} short"
    )
    return Refused(wrong, f"{written(Length(max(full - excess, 0.0)))} deep")
