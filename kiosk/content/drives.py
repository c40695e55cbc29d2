"""Whether a machine's speeds, pulleys, plate, dial, table and vice agree with each other.

`agreeing` asks this of every machine file.
"""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.content.forms import DialForm, MachineForm, PlateForm, PulleysForm
from kiosk.core.machining.bounds import SPEEDS, unfit
from kiosk.core.problems import Place, Problem
from kiosk.core.units import Length, SpindleSpeed

VICE_BEDS = (Length(5.0), Length(150.0))  # lower or higher would be a slip of the keyboard
MOST_MARKS = 200  # on a dial; more would be no marks at all


def drive_problems(file: str, form: MachineForm) -> Iterator[Problem]:
    """Every problem of how the machine gets its speeds, and of its table and vice."""
    ways = [name for name in ("speeds", "plate", "dial") if getattr(form, name)]
    place = Place(file, form.line)
    if not ways and not form.pulleys:
        advice = "give speeds from the plate, or pulleys"
        yield Problem(place, "the machine has no speeds", advice=advice)
    if len(ways) > 1:
        yield Problem(place, f"{' and '.join(ways)} together", "one of speeds, plate and dial")
    yield from _speeds(place, form)
    if form.pulleys:
        yield from _pulleys(file, form, form.pulleys)
    yield from _plate(file, form)
    if form.dial:
        yield from _dial(file, form.dial)
    yield from _heights(file, form)


def _heights(file: str, form: MachineForm) -> Iterator[Problem]:
    """A table or a vice that can't stand as high as is written."""
    if form.table and not 0 < form.table.nearest.mm < form.table.furthest.mm:
        found = f"nearest {form.table.nearest.mm:g} mm, furthest {form.table.furthest.mm:g} mm"
        yield Problem(Place(file, form.table.line), found, "nearest under furthest, both over 0")
    if form.vice_bed and not VICE_BEDS[0] <= form.vice_bed <= VICE_BEDS[1]:
        allowed = f"{VICE_BEDS[0].mm:g} mm to {VICE_BEDS[1].mm:g} mm above the table"
        yield Problem(Place(file, form.line), f"vice_bed {form.vice_bed.mm:g} mm", allowed)


def _speeds(place: Place, form: MachineForm) -> Iterator[Problem]:
    for speed in (*(form.speeds or ()), *(row.speed for row in form.plate or ())):
        if wrong := unfit("speed", speed, SPEEDS):
            yield Problem(place, wrong.wrong, advice=f"nearest: {wrong.nearest}")
    given = form.motor_speed
    if given is not None and (wrong := unfit("motor speed", given, SPEEDS)):
        yield Problem(place, wrong.wrong, advice=f"nearest: {wrong.nearest}")


def _pulleys(file: str, form: MachineForm, pulleys: PulleysForm) -> Iterator[Problem]:
    place, count = Place(file, pulleys.line), len(pulleys.motor)
    if count != len(pulleys.spindle):
        found = f"grooves: {count} on the motor, {len(pulleys.spindle)} on the spindle"
        yield Problem(place, found, "as many on both pulleys")
    elif pulleys.idler and len(pulleys.idler) != count:
        found = f"grooves: {count} on the motor, {len(pulleys.idler)} on the idler"
        yield Problem(place, found, "as many on every pulley")
    elif form.speeds and len(form.speeds) != _positions(pulleys):
        allowed = "give them as plate" if pulleys.idler else "one speed for each groove"
        yield Problem(place, f"{len(form.speeds)} speeds, {count} grooves", allowed)
    if wrong := unfit("motor speed", pulleys.motor_speed, SPEEDS):
        yield Problem(place, wrong.wrong, advice=f"nearest: {wrong.nearest}")
    yield from _diameters(place, pulleys)


def _positions(pulleys: PulleysForm) -> int:
    count = len(pulleys.motor)
    return count * (count - 1) if pulleys.idler else count


def _diameters(place: Place, pulleys: PulleysForm) -> Iterator[Problem]:
    correction = pulleys.correction.mm if pulleys.measured == "outside" else 0.0
    for diameter in (*pulleys.motor, *(pulleys.idler or ()), *pulleys.spindle):
        if diameter.mm <= correction:
            least = Length(correction)
            yield Problem(place, f"a pulley of {diameter.mm:g} mm", f"over {least.mm:g} mm")


def _plate(file: str, form: MachineForm) -> Iterator[Problem]:
    if form.plate and form.pulleys and not form.pulleys.idler:
        found = "plate names two belts, pulleys have no idler"
        yield Problem(Place(file, form.pulleys.line), found, "idler, or speeds instead of plate")
    for row in form.plate or ():
        yield from _row(file, row, len(form.pulleys.motor) if form.pulleys else 0)


def _row(file: str, row: PlateForm, count: int) -> Iterator[Problem]:
    grooves = row.motor_belt, row.spindle_belt
    if min(grooves) < 1 or (count and max(grooves) > count):
        allowed = f"1 to {count}" if count else "1 or more"
        yield Problem(Place(file, row.line), f"grooves {grooves[0]} and {grooves[1]}", allowed)
    elif grooves[0] == grooves[1]:
        found = f"both belts in groove {grooves[0]} of the idler"
        yield Problem(Place(file, row.line), found, "two grooves")


def _dial(file: str, dial: DialForm) -> Iterator[Problem]:
    place = Place(file, dial.line)
    for name, speed in (("slowest", dial.slowest), ("fastest", dial.fastest)):
        if wrong := unfit(f"{name} speed", speed, SPEEDS):
            yield Problem(place, wrong.wrong, advice=f"nearest: {wrong.nearest}")
    if dial.slowest >= dial.fastest:
        yield Problem(place, _span(dial), "slowest under fastest")
    elif dial.step.rpm <= 0 or (dial.fastest.rpm - dial.slowest.rpm) / dial.step.rpm > MOST_MARKS:
        least = SpindleSpeed((dial.fastest.rpm - dial.slowest.rpm) / MOST_MARKS)
        yield Problem(place, f"step {dial.step.rpm:g} rpm", f"{least.rpm:g} rpm or more")


def _span(dial: DialForm) -> str:
    return f"slowest {dial.slowest.rpm:g} rpm, fastest {dial.fastest.rpm:g} rpm"
