"""Every number of a plan, with its working and its source.

`compiling` asks for the figures of one hole; the texts and drawings of the steps take them from
the plan's values by name.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from kiosk.core.machining.belts import belt_values, setting_of
from kiosk.core.machining.depth import (
    StopSetting,
    floor_figure,
    point_figure,
    stop_setting,
    through_travel,
)
from kiosk.core.machining.feeding import feed_for
from kiosk.core.machining.fitting import fits
from kiosk.core.machining.lifting import lift_plan
from kiosk.core.machining.speeds import GrooveChoice, choose_groove
from kiosk.core.machining.table import scrap_figures, table_gap
from kiosk.core.machining.vice import vice_under
from kiosk.core.machining.worked import Figure, Refused, Value
from kiosk.core.model import BitKind, Habit, Hole, Job, Machine, Material
from kiosk.core.units import Length

# The names that texts and drawings may ask for.
VALUE_NAMES = (
    "material",
    "material_family",
    "marking",
    "fluid",
    "dust",
    "extraction",
    "run_down",
    "eye_protection",
    "shape",
    "work_width",
    "thickness",
    "work_length",
    "bit",
    "diameter",
    "point_angle",
    "hole_kind",
    "hole",
    "holes",
    "depth",
    "setting",
    "groove",
    "second_groove",
    "grooves",
    "speed",
    "chuck",
    "way",
    "power",
    "under",
    "shut",
    "at_drill",
    "point",
    "stop",
    "reached",
    "floor",
    "travel",
    "scrap",
    "scrap_most",
    "board",
    "gap",
    "vice_bed",
    "lift",
    "lifts",
    "feed",
)
MACHINE_VALUES = ("chuck", "extraction", "run_down", "grooves")  # in recoveries


@dataclass(frozen=True)
class Sums:
    """What machining says about one hole."""

    groove: GrooveChoice
    stop: StopSetting | None
    lifts: tuple[Length, ...]
    figures: tuple[Figure, ...]


@dataclass(frozen=True)
class Piece:
    """One hole of a job on a machine, all found."""

    machine: Machine
    material: Material
    bit: BitKind
    job: Job
    hole: Hole


def sums_of(piece: Piece) -> Sums | Refused:
    """The sums of a hole, or the first reason why it cannot be drilled here."""
    machine, material, bit, hole = piece.machine, piece.material, piece.bit, piece.hole
    refused = _dust_refused(piece) or fits(
        machine, material, bit, hole.diameter, piece.job.work, hole.depth
    )
    deep = hole.depth or piece.job.work.thickness
    groove = refused or choose_groove(machine, material, bit, hole.diameter, deep)
    if isinstance(groove, Refused):
        return groove
    stop = _stop(piece)
    if isinstance(stop, Refused):
        return stop
    feed = feed_for(bit, material, hole.diameter, deep)
    fed = () if isinstance(feed, Refused) else (feed,)
    lifts = lift_plan(material, bit, hole.diameter, deep)
    set_to = _groove_figures(machine, groove)
    below = (*_depth_figures(piece, stop), *_lifts(lifts, piece), *_gap(piece))
    figures = (*set_to, *fed, *below)
    return Sums(groove, stop, lifts, figures)


def _dust_refused(piece: Piece) -> Refused | None:
    if not piece.material.dust or piece.machine.extraction != "none":
        return None
    wrong = f"{piece.material.name} makes dust, and this drill has no dust control"
    return Refused(wrong, "a drill with a vacuum or fixed extraction")


def _stop(piece: Piece) -> StopSetting | Refused | None:
    """How far the bit goes down: what the stop is set to, or where tape goes round the bit."""
    if piece.hole.depth is None:
        return None
    work = piece.job.work
    return stop_setting(piece.hole.depth, piece.bit, piece.hole.diameter, work.thickness)


def _groove_figures(machine: Machine, choice: GrooveChoice) -> tuple[Figure, ...]:
    if machine.drive == "dial":
        return (choice.figure,)
    if machine.positions:
        where = setting_of(machine, choice.groove)
        line = "motor's belt first, then the spindle's, counted from the top"
        return choice.figure, Figure("grooves", where, line, "the machine's plate")
    groove = Figure("groove", choice.groove, "counted from the top", "the machine's plate")
    return choice.figure, groove


def _depth_figures(piece: Piece, stop: StopSetting | None) -> tuple[Figure, ...]:
    bit, diameter, thick = piece.bit, piece.hole.diameter, piece.job.work.thickness
    if stop is not None:
        return stop.point, stop.stop, stop.reached, floor_figure(stop, thick)
    return (
        point_figure(bit, diameter),
        through_travel(thick, bit, diameter),
        *scrap_figures(piece.machine, bit, diameter, piece.job.work),
    )


def _lifts(lifts: tuple[Length, ...], piece: Piece) -> tuple[Figure, ...]:
    if not lifts:
        return ()
    at = ", ".join(f"{lift.mm:g}" for lift in lifts)
    source = f"lift distance of {piece.material.name}; deep holes from 3 diameters"
    first = Figure("lift", lifts[0], f"lift clear at {at} mm", source)
    return first, Figure("lifts", len(lifts), "times before the end", source)


def _gap(piece: Piece) -> tuple[Figure, ...]:
    """From the chuck down to the table, in whole millimetres; none for a bit of unknown length."""
    found = table_gap(
        piece.machine, piece.bit, piece.hole.diameter, piece.job.work, piece.hole.is_through
    )
    if isinstance(found, Refused):
        return ()
    assert isinstance(found.value, Length)
    gap = Length(float(ceil(found.value.mm)))
    rounded = ", rounded up" if gap > found.value else ""
    return (Figure("gap", gap, found.working + rounded, found.source),)


def values_of(piece: Piece, sums: Sums, way: str, eye: str) -> tuple[tuple[str, Value], ...]:
    """All values by name, for texts and drawings; bit and material by id, named by the words."""
    belts = belt_values(piece.machine, sums.groove.groove)
    named = {figure.name: figure.value for figure in sums.figures} | dict(belts)
    named |= {**machine_values(piece.machine), **_work_values(piece), **_hole_values(piece)}
    named |= {"way": way, "eye_protection": eye, "speed": sums.groove.speed}
    if "scrap" in named:
        named["board"] = "one" if named["scrap"] == named["scrap_most"] else "range"
    named["shut"] = named["chuck"]
    named["under"] = "scrap" if piece.hole.is_through else "bed"
    named["power"] = "plug" if piece.machine.habit is Habit.PLUG else "isolator"
    found = tuple((name, named[name]) for name in VALUE_NAMES if name in named)
    return (*found, *((name, value) for name, value in belts if name not in VALUE_NAMES))


def machine_values(machine: Machine) -> dict[str, Value]:
    """The values that belong to the machine alone."""
    return {
        "chuck": "keyed" if machine.keyed_chuck else "keyless",
        "extraction": machine.extraction,
        "run_down": machine.run_down,
        "setting": machine.drive.replace(" ", "_"),
        "grooves": groove_count(machine),
    }


def groove_count(machine: Machine) -> int:
    """How many grooves each pulley has, for the drawing; none with a dial."""
    if machine.drive == "dial":
        return 0
    grooves = [groove for position in machine.positions for groove in position]
    return max(grooves, default=len(machine.speeds))


def _work_values(piece: Piece) -> dict[str, Value]:
    material, work = piece.material, piece.job.work
    bed = vice_under(piece.machine, work)
    return {
        **({"vice_bed": bed} if bed else {}),
        "material": material.id,
        "material_family": material.family,
        "marking": material.marking,
        "fluid": material.fluid,
        "dust": "yes" if material.dust else "no",
        "shape": work.shape,
        "work_width": work.width,
        "thickness": work.thickness,
        "work_length": work.length,
    }


def _hole_values(piece: Piece) -> dict[str, Value]:
    hole, bit = piece.hole, piece.bit
    deep: dict[str, Value] = {"depth": hole.depth} if hole.depth else {}
    return {
        **deep,
        "bit": bit.id,
        "diameter": hole.diameter,
        "point_angle": bit.point,
        "hole_kind": "through" if hole.is_through else "part-way",
        "hole": 1,
        "holes": hole.count,
    }
