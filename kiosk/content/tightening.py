"""What a school's folder may not do: loosen anything that is shipped.

`load` asks `loosened` of the two folders before it lays one over the other. Wording is free;
limits may only be drawn in, and what carries a control measure may not be taken away.
"""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.content.forms import AssessmentForm, HazardForm
from kiosk.content.library import Filed, Library
from kiosk.content.merging import misplaced
from kiosk.content.people import looser_people
from kiosk.content.risk_forms import ControlForm, InstallationForm
from kiosk.content.tighter_steps import looser_steps, reasons_of
from kiosk.content.tighter_stock import looser_bit, looser_checks, looser_machine, looser_material
from kiosk.content.values import days_of
from kiosk.core.problems import Place, Problem

Problems = Iterator[Problem]


def loosened(base: Library, school: Library) -> Problems:
    """Every place where the school's folder would loosen the shipped content, with the reason."""
    yield from _stock(base, school)
    yield from _sequences(base, school)
    yield from _assessment(base.assessment, school.assessment)
    if base.checks and school.checks:
        yield from looser_checks(base.checks.form, school.checks)
    if base.people and school.people:
        yield from looser_people(base.people.form, school.people)


def _stock(base: Library, school: Library) -> Problems:
    for id, filed in school.materials.items():
        if id in base.materials:
            yield from looser_material(id, base.materials[id].form, filed, set(base.bits))
    for id, bit in school.bits.items():
        if id in base.bits:
            yield from looser_bit(id, base.bits[id].form, bit)
    for id, machine in school.machines.items():
        yield from looser_machine(id, machine)


def _sequences(base: Library, school: Library) -> Problems:
    why = reasons_of(base)
    if base.drilling and school.drilling:
        shipped, own = base.drilling.form.steps, school.drilling
        yield from misplaced(own.file, shipped, own.form.steps)
        yield from looser_steps(own.file, shipped, own.form.steps, why)
    for trouble, filed in school.recoveries.items():
        if trouble in base.recoveries:
            steps = base.recoveries[trouble].form.steps
            yield from misplaced(filed.file, steps, filed.form.steps)
            yield from looser_steps(filed.file, steps, filed.form.steps, why)


def _assessment(
    base: Filed[AssessmentForm] | None, school: Filed[AssessmentForm] | None
) -> Problems:
    if base is None or school is None:
        return
    shipped = base.form.hazards or {}
    for id, hazard in (school.form.hazards or {}).items():
        if id in shipped:
            yield from _hazard(school.file, str(id), shipped[id], hazard)
    checks = base.form.installation or {}
    for id, check in (school.form.installation or {}).items():
        if id in checks:
            yield from _check(Place(school.file, check.line), str(id), checks[id], check)


def _check(place: Place, id: str, before: InstallationForm, after: InstallationForm) -> Problems:
    """An installation check comes no later, and takes the drill out of use as before."""
    if days_of(after.every) > days_of(before.every):
        found = f"installation check {id} every {after.every!s}"
        yield Problem(place, found, f"every {before.every!s} or more often", str(before.look))
    if before.out_of_use and not after.out_of_use:
        found = f"installation check {id} no longer takes the drill out of use"
        yield Problem(place, found, "out_of_use: yes", str(before.look))


def _control(file: str, name: str, before: ControlForm, after: ControlForm) -> Problems:
    """A control measure is carried out wherever it was, and on no other condition."""
    place, advice = Place(file, after.line), f"what is shipped does it: {before.text!s}"
    left = [str(at) for at in before.at if at not in after.at]
    if left:
        found = f"control measure {name} no longer at {', '.join(left)}"
        yield Problem(place, found, f"at: [{', '.join(map(str, before.at))}]", advice)
    for key in ("levels", "when", "unless"):
        here = getattr(after, key)
        if here and here != getattr(before, key):
            yield Problem(place, f"control measure {name} has another {key}", "as shipped", advice)


def _hazard(file: str, id: str, before: HazardForm, after: HazardForm) -> Problems:
    place = Place(file, after.line)
    for name, control in before.controls.items():
        if name not in after.controls:
            found = f"hazard {id} no longer has control measure {name!s}"
            yield Problem(place, found, advice=f"keep it: {control.text!s}")
        elif after.controls[name].by != control.by:
            found = f"control measure {name!s} by {after.controls[name].by!s}"
            at = Place(file, after.controls[name].line)
            yield Problem(at, found, str(control.by), f"what is shipped does it: {control.text!s}")
        else:
            yield from _control(file, str(name), control, after.controls[name])
    for who in before.who:
        if who not in after.who:
            found = f"hazard {id} no longer names {who!s} among who may be harmed"
            yield Problem(place, found, advice=f"keep it: {before.harm!s}")
    for name in set(before.also) - set(after.also) - set(after.controls):
        found = f"hazard {id} no longer shares control measure {name!s}"
        yield Problem(place, found, advice="keep it under also")
