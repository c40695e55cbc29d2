"""Whether the files agree with each other: what one names, another must have.

`load` asks `disagreements` once every file could be read by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeAlias

from kiosk.content.forms import BitForm, JobForm, MachineForm, MaterialForm, StepForm
from kiosk.content.library import Filed, Library
from kiosk.content.wired import wired
from kiosk.content.wording import wording
from kiosk.core.machining.belts import plate_doubts
from kiosk.core.model import Machine
from kiosk.core.plan.conditions import MACHINE_NAMES, NAMES
from kiosk.core.problems import Place, Problem, nearest

Problems: TypeAlias = Iterator[Problem]

TROUBLES = (
    "bit_broken",
    "bit_jammed",
    "work_spun",
    "smoke",
    "hurt",
    "alarm",
    "power",
    "gone",
)
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
    yield from _troubles(library)
    yield from _steps(library)


def doubts(machines: tuple[Machine, ...]) -> tuple[Problem, ...]:
    """What is allowed but worth a look: plates that their pulleys do not bear out."""
    return tuple(
        Problem(Place(machine.file), doubt, advice="measure the pulleys again")
        for machine in machines
        if machine.pulleys
        for doubt in plate_doubts(machine.speeds, machine.pulleys)
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
    if not form.speeds and not form.pulleys:
        advice = "give speeds from the plate, or pulleys"
        yield Problem(Place(file, form.line), "the machine has no speeds", advice=advice)
    if form.pulleys and len(form.pulleys.motor) != len(form.pulleys.spindle):
        counts = f"{len(form.pulleys.motor)} on the motor, {len(form.pulleys.spindle)}"
        found = f"grooves: {counts} on the spindle"
        yield Problem(Place(file, form.pulleys.line), found, "as many on both pulleys")
    elif form.pulleys and form.speeds and len(form.pulleys.motor) != len(form.speeds):
        found = f"{len(form.speeds)} speeds, {len(form.pulleys.motor)} grooves"
        yield Problem(Place(file, form.pulleys.line), found, "one speed for each groove")
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
    for band in filed.form.bands:
        yield from _known(filed.file, _line(band.bit, band.line), "bit", band.bit, library.bits)
        if not 0 < band.low.m_per_min < band.high.m_per_min:
            found = f"low {band.low.m_per_min:g} m/min, high {band.high.m_per_min:g} m/min"
            yield Problem(Place(filed.file, band.line), found, "low under high, both over 0")


def _bit(filed: Filed[BitForm]) -> Problems:
    form, place = filed.form, Place(filed.file, filed.form.line)
    if not 0 < form.smallest.mm <= form.largest.mm:
        found = f"smallest {form.smallest.mm:g} mm, largest {form.largest.mm:g} mm"
        yield Problem(place, found, "smallest no more than largest")
    for size in form.sizes:
        if not form.smallest <= size <= form.largest:
            allowed = f"{form.smallest.mm:g} mm to {form.largest.mm:g} mm"
            yield Problem(place, f"size {size.mm:g} mm of {form.name!s}", allowed)
    if not 0 < form.point.degrees <= 180:
        yield Problem(place, f"point {form.point.degrees:g} deg", "over 0 and up to 180 deg")
    if form.floor_speed > form.top_speed:
        yield Problem(place, "floor_speed is over top_speed", "floor_speed under top_speed")


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
        seen.add(hole.id)


def _troubles(library: Library) -> Problems:
    for trouble, filed in library.recoveries.items():
        yield from _known(filed.file, 0, "trouble", trouble, TROUBLES)
        last = filed.form.steps[-1] if filed.form.steps else None
        if last is None or last.who != "adult":
            place = Place(filed.file, last.line if last else filed.form.line)
            yield Problem(place, "it does not end with an adult's step", "who: adult at the end")
    for trouble in TROUBLES:
        if trouble not in library.recoveries:
            yield Problem(Place(f"recovery/{trouble}.yaml"), "no such file", advice="put it back")


def _steps(library: Library) -> Problems:
    seen: dict[str, str] = {}
    for file, kind, steps in _sequences(library):
        for step in steps:
            if step.id in seen:
                found = f"step {str(step.id)!r} is written twice, also in {seen[step.id]}"
                yield Problem(Place(file, step.line), found, advice="give it another id")
            seen.setdefault(str(step.id), file)
            yield from _step(file, kind, step, library)
            yield from wording(file, kind, step)


def _sequences(library: Library) -> Iterator[tuple[str, str, tuple[StepForm, ...]]]:
    if library.drilling:
        yield library.drilling.file, "drilling", library.drilling.form.steps
    for filed in library.recoveries.values():
        yield filed.file, "recovery", filed.form.steps


def _step(file: str, kind: str, step: StepForm, library: Library) -> Problems:
    place = Place(file, step.line)
    if (step.part == "recovery") != (kind == "recovery"):
        yield Problem(place, f"step {step.id!s} has part {step.part!s} in a {kind} sequence")
        return
    on_a_path = step.part not in ("clear", "recovery")
    if on_a_path != bool(step.at):
        needed = "at: [fresh]" if on_a_path else f"no at for part {step.part!s}"
        yield Problem(place, f"step {step.id!s}: at is {list(map(str, step.at))}", needed)
    names = MACHINE_NAMES if kind == "recovery" else tuple(NAMES)
    for tests in (step.when or {}, step.unless or {}):
        for name, words in tests.items():
            yield from _known(file, _line(name, step.line), "condition", name, names)
            for word in words if name in NAMES else ():
                allowed = NAMES[name] or _ids(name, library)
                yield from _known(file, _line(word, step.line), str(name), word, allowed)


def _ids(name: str, library: Library) -> tuple[str, ...]:
    if name == "machine":
        return tuple(library.machines)
    return tuple(library.materials if name == "material" else library.bits)
