"""Whether a hole can be drilled here at all: bit, set, chuck, stroke and edge.

`plan` asks `fits` before any other sum.
"""

from __future__ import annotations

from kiosk.core.machining.depth import OVERRUN, point_length
from kiosk.core.machining.worked import Refused
from kiosk.core.machining.writing import listed, written
from kiosk.core.model import BitKind, Machine, Material, Work
from kiosk.core.units import Length

BRITTLE_EDGE = 2.0  # diameters, rim of the hole to edge; polycarbonate fabricator's sheet, 1.5-2
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

    `depth` is the depth at full diameter, None for a through hole. Looks at the bit's material
    and range, the sizes in the set, the chuck, the stroke (travel = depth or thickness, point
    and 2 mm overrun) and the distance to the edge (2 diameters in brittle material).
    """
    return (
        _material_refused(material, bit)
        or _range_refused(bit, diameter)
        or _set_refused(bit, diameter)
        or _chuck_refused(machine, bit, diameter)
        or _stroke_refused(machine, bit, diameter, work, depth)
        or _edge_refused(material, diameter, work)
    )


def nearest_sizes(bit: BitKind, diameter: Length) -> tuple[Length, ...]:
    """The sizes of the set just under and just over a diameter, the nearer one first."""
    under = max((size for size in bit.sizes if size <= diameter), default=None)
    over = min((size for size in bit.sizes if size > diameter), default=None)
    both = [size for size in (under, over) if size is not None]
    return tuple(sorted(both, key=lambda size: abs(size.mm - diameter.mm)))


def _material_refused(material: Material, bit: BitKind) -> Refused | None:
    if material.family in bit.families:
        return None
    return Refused(f"a {bit.name} is not for {material.name}", f"for {', '.join(bit.families)}")


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
    return Refused(wrong, f"{listed(near)}, {_error(near[0], diameter)}")


def _error(size: Length, diameter: Length) -> str:
    word = "over" if size > diameter else "under"
    return f"{written(Length(abs(size.mm - diameter.mm)))} {word}"


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


def _stroke_refused(
    machine: Machine, bit: BitKind, diameter: Length, work: Work, depth: Length | None
) -> Refused | None:
    full = depth.mm if depth else work.thickness.mm + OVERRUN.mm
    travel = full + point_length(diameter, bit.point).mm
    excess = travel - machine.stroke.mm
    if excess <= 0:
        return None
    wrong = (
        f"not on this machine: the hole needs {written(Length(travel))} of travel, the spindle"
        f" has {written(machine.stroke)}, {written(Length(excess))} short"
    )
    return Refused(wrong, f"{written(Length(max(full - excess, 0.0)))} deep")


def _edge_refused(material: Material, diameter: Length, work: Work) -> Refused | None:
    """Looks at a hole in the middle of the narrower way across, the best place there is."""
    across = min(work.width, work.length)
    rim = BRITTLE_EDGE * diameter.mm if material.brittle else 0.0
    least = Length(diameter.mm + 2 * rim)
    if least < across:
        return None
    wrong = f"a {written(diameter)} hole is too near the edge: the work is {written(across)} across"
    largest = Length(across.mm * diameter.mm / least.mm)
    if material.brittle:
        wrong += f", and {material.name} wants {written(Length(rim))} from hole to edge"
        return Refused(wrong, f"a hole under {written(largest)}, or wider work")
    return Refused(wrong, "wider work, or a smaller hole")
