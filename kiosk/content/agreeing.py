"""Whether the files agree with each other: what one names, another must have.

`load` asks `disagreements` once every file could be read by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeAlias

from kiosk.content.drives import drive_problems
from kiosk.content.forms import BitForm, HoleForm, JobForm, MachineForm, MaterialForm
from kiosk.content.library import Filed, Library
from kiosk.content.people import people_problems
from kiosk.content.risks_agree import risk_problems
from kiosk.content.standing import sequence_problems
from kiosk.content.wired import wired
from kiosk.core.machining.belts import plate_doubts
from kiosk.core.model import Machine
from kiosk.core.problems import Place, Problem, nearest

Problems: TypeAlias = Iterator[Problem]

INPUTS = ("isolator", "starter", "spindle", "guard", "extraction")
MOST_PRE_USE = 7


def disagreements(library: Library) -> Problems:
    """Every problem between the files of the library."""
    for machine in library.machines.values():
        yield from _machine(machine)
    for material in library.materials.values():
        yield from _material(material, library)
    for bit in library.bits.values():
        yield from _bit(bit)
    for job in library.jobs.values():
        yield from _job(job, library)
    yield from sequence_problems(library)
    yield from risk_problems(library)
    yield from people_problems(library)


def doubts(machines: tuple[Machine, ...]) -> tuple[Problem, ...]:
    """What is allowed but worth a look: plates that their pulleys do not bear out."""
    return tuple(
        Problem(Place(machine.file), doubt, advice="measure the pulleys again")
        for machine in machines
        if machine.pulleys
        for doubt in plate_doubts(machine.speeds, machine.pulleys, machine.positions or None)
    )


def _known(file: str, line: int, what: str, found: str, allowed: Iterable[str]) -> Problems:
    words = tuple(allowed)
    if found not in words:
        listed = ", ".join(words)
        yield Problem(Place(file, line), f"{what} {found!r}", listed, nearest(found, words))


def _line(text: object, other: int) -> int:
    return getattr(text, "line", other)


def _machine(filed: Filed[MachineForm]) -> Problems:
    form, file = filed.form, filed.file
    yield from drive_problems(file, form)
    if not 1 <= len(form.pre_use) <= MOST_PRE_USE:
        found = f"{len(form.pre_use)} lines in pre_use"
        yield Problem(Place(file, form.line), found, f"1 to {MOST_PRE_USE}")
    if not form.holding:
        yield Problem(Place(file, form.line), "holding is empty", "vice, clamps")
    for name in form.contacts.inputs or () if form.contacts else ():
        yield from _known(file, _line(name, 0), "input", name, INPUTS)
    if form.contacts:
        yield from wired(file, form.contacts)


def _material(filed: Filed[MaterialForm], library: Library) -> Problems:
    yield from _material_numbers(filed.file, filed.form)
    if filed.form.family == "wood" and not filed.form.dust:
        place = Place(filed.file, filed.form.line)
        yield Problem(place, f"{filed.form.name!s} is wood with dust: no", "dust: yes for wood")
    for band in filed.form.bands:
        yield from _known(filed.file, _line(band.bit, band.line), "bit", band.bit, library.bits)
        if not 0 < band.low.m_per_min < band.high.m_per_min:
            found = f"low {band.low.m_per_min:g} m/min, high {band.high.m_per_min:g} m/min"
            yield Problem(Place(filed.file, band.line), found, "low under high, both over 0")


def _material_numbers(file: str, form: MaterialForm) -> Problems:
    if not 0 < form.feed_share <= 1:
        found, allowed = f"feed_share {form.feed_share:g}", "over 0 and up to 1"
        yield Problem(Place(file, form.line), found, allowed)
    cutting = form.cutting
    if cutting and not (cutting.pressure.n_per_mm2 > 0 and 0 < cutting.friction < 1):
        found = f"pressure {cutting.pressure.n_per_mm2:g} N/mm2, friction {cutting.friction:g}"
        yield Problem(Place(file, cutting.line), found, "over 0, and friction under 1")


def _bit(filed: Filed[BitForm]) -> Problems:
    form, place = filed.form, Place(filed.file, filed.form.line)
    if not 0 < form.smallest.mm <= form.largest.mm:
        found = f"smallest {form.smallest.mm:g} mm, largest {form.largest.mm:g} mm"
        yield Problem(place, found, "smallest no more than largest")
    for size in form.sizes:
        if not form.smallest <= size <= form.largest:
            allowed = f"{form.smallest.mm:g} mm to {form.largest.mm:g} mm"
            yield Problem(place, f"size {size.mm:g} mm of {form.name!s}", allowed)
    yield from _rows(place, form)
    if not 0 < form.point.degrees <= 180:
        yield Problem(place, f"point {form.point.degrees:g} deg", "over 0 and up to 180 deg")
    if form.floor_speed > form.top_speed:
        yield Problem(place, "floor_speed is over top_speed", "floor_speed under top_speed")


def _rows(place: Place, form: BitForm) -> Problems:
    """Tables that do not go up, and bits that are shorter than their flutes."""
    for name in ("feed", "reach"):
        ends = [row.up_to.mm for row in getattr(form, name)]
        if ends != sorted(set(ends)):
            yield Problem(place, f"rows of {name} out of order", "up_to rising from row to row")
    for row in form.reach:
        if not 0 < row.flute.mm < row.length.mm:
            found = f"flute {row.flute.mm:g} mm of {row.length.mm:g} mm"
            yield Problem(Place(place.file, row.line), found, "flute shorter than length")


def _job(filed: Filed[JobForm], library: Library) -> Problems:
    form, file = filed.form, filed.file
    line = _line(form.material, form.line)
    yield from _known(file, line, "material", form.material, library.materials)
    if not form.holes:
        yield Problem(Place(file, form.line), "the job has no holes", "at least one")
    seen: set[str] = set()
    for hole in form.holes:
        yield from _known(file, _line(hole.bit, hole.line), "bit", hole.bit, library.bits)
        if hole.id in seen:
            yield Problem(Place(file, hole.line), f"hole {str(hole.id)!r} is written twice")
        if hole.count < 1:
            yield Problem(Place(file, hole.line), f"count {hole.count}", "1 or more")
        if hole.diameter.mm <= 0:
            yield Problem(Place(file, hole.line), "diameter 0 mm", "more than 0 mm")
        yield from _pilot(file, form, hole)
        seen.add(hole.id)


def _pilot(file: str, form: JobForm, hole: HoleForm) -> Problems:
    """What a hole comes after is a thinner one of the same bit's work, written before it."""
    if hole.after is None:
        return
    before = {h.id: h for h in form.holes[: form.holes.index(hole)]}
    yield from _known(file, _line(hole.after, hole.line), "after", hole.after, before)
    pilot = before.get(hole.after)
    if pilot and pilot.diameter >= hole.diameter:
        found = f"pilot {pilot.diameter.mm:g} mm for a hole of {hole.diameter.mm:g} mm"
        yield Problem(Place(file, hole.line), found, "a pilot thinner than its hole")
