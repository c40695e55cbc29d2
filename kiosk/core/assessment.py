"""The risk assessment held against what carries it out: nothing left over on either side.

`content` asks `left_over` once everything is read. Steps carry out control measures, house rules
enforce them, the machine's pre-use check looks at them each day, and the assessment's own list of
installation checks says what is looked at now and then.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kiosk.core.model import Assessment, Control, Hazard, Machine, Sequence
from kiosk.core.problems import Place, Problem, nearest

STEP, RULE, CHECK = "step", "house rule", "installation check"


@dataclass(frozen=True)
class Used:
    """One use of a control measure's id outside the hazards, with its place."""

    id: str
    place: Place
    by: str
    what: str  # how a problem names it


def left_over(
    assessment: Assessment,
    sequences: tuple[Sequence, ...],
    machines: tuple[Machine, ...],
    rules: tuple[str, ...],
) -> tuple[Problem, ...]:
    """Control measures that nothing carries out, and what carries out none that is written.

    An id misspelt on one side is one problem, not one on each side.
    """
    controls = controls_of(assessment)
    checks = (*_in_checks(machines), *_installed(assessment))
    used = (*_in_steps(sequences), *_in_rules(assessment, rules), *checks)
    unknown = {use.id for use in used} - {control.id for control in controls}
    missing = dict(_not_carried_out(assessment, controls, used, machines, unknown))
    taken = {name for name in unknown for p in missing.values() if repr(name) in p.advice}
    strangers = (use for use in used if use.id in unknown - taken)
    return (
        *_written_twice(assessment, controls),
        *missing.values(),
        *(_stranger(use, controls) for use in strangers),
        *(p for hazard in assessment.hazards for p in _also(assessment, hazard, controls)),
    )


def controls_of(assessment: Assessment) -> tuple[Control, ...]:
    """All control measures, in the order of the hazards."""
    return tuple(control for hazard in assessment.hazards for control in hazard.controls)


def measures_of(assessment: Assessment, hazard: Hazard) -> tuple[Control, ...]:
    """Every control measure against a hazard: its own, then those it shares with others."""
    shared = (c for c in controls_of(assessment) if c.id in hazard.also)
    return (*hazard.controls, *shared)


def carried_out_by(sequences: tuple[Sequence, ...], control: Control) -> tuple[str, ...]:
    """The ids of the steps that carry out a control measure, in their order."""
    return tuple(s.id for each in sequences for s in each.steps if control.id in s.controls)


def _in_steps(sequences: tuple[Sequence, ...]) -> Iterator[Used]:
    for sequence in sequences:
        for step in sequence.steps:
            place = Place(step.file or sequence.file, step.line)
            for name in step.controls:
                yield Used(name, place, STEP, f"step {step.id!r}")


def _in_rules(assessment: Assessment, rules: tuple[str, ...]) -> Iterator[Used]:
    for rule in rules:
        yield Used(rule, Place(assessment.file), RULE, f"house rule {rule!r}")


def _in_checks(machines: tuple[Machine, ...]) -> Iterator[Used]:
    for machine in machines:
        for item in machine.pre_use:
            yield Used(item.id, Place(machine.file), CHECK, f"pre-use line {item.id!r}")


def _installed(assessment: Assessment) -> Iterator[Used]:
    for check in assessment.installation:
        place = Place(check.file or assessment.file, check.line)
        yield Used(check.id, place, CHECK, f"installation check {check.id!r}")


def _written_twice(assessment: Assessment, controls: tuple[Control, ...]) -> Iterator[Problem]:
    seen: set[str] = set()
    for control in controls:
        if control.id in seen:
            found = f"control measure {control.id!r} is written twice"
            yield Problem(_place(assessment, control), found)
        seen.add(control.id)


def _place(assessment: Assessment, written: Control | Hazard) -> Place:
    return Place(written.file or assessment.file, written.line)


def _not_carried_out(
    assessment: Assessment,
    controls: tuple[Control, ...],
    used: tuple[Used, ...],
    machines: tuple[Machine, ...],
    unknown: set[str],
) -> Iterator[tuple[str, Problem]]:
    """Each control measure that nothing of its kind carries out, with its problem."""
    uses = {(use.by, use.id) for use in used}
    installed = {use.id for use in _installed(assessment)}
    for control in controls:
        place = _place(assessment, control)
        if (control.by, control.id) not in uses:
            found = f"no {control.by} carries out control measure {control.id!r}"
            advice = nearest(control.id, unknown) or _WHERE[control.by]
            yield control.id, Problem(place, found, advice=advice)
        elif control.by != CHECK or control.id in installed:
            continue
        elif without := _machines_without(control, machines):
            found = f"the pre-use check of {without} has no line {control.id!r}"
            yield control.id, Problem(place, found, advice=f"add it to pre_use of {without}")


_WHERE = {
    STEP: "name it in the controls of the step that carries it out",
    RULE: "house rules stand in the code; carry it out by a step",
    CHECK: "add it to pre_use of the machine, or to installation",
}


def _machines_without(control: Control, machines: tuple[Machine, ...]) -> str:
    without = (m.id for m in machines if control.id not in {item.id for item in m.pre_use})
    return ", ".join(without)


def _stranger(use: Used, controls: tuple[Control, ...]) -> Problem:
    """What carries out a control measure that no hazard lists; only steps can misspell it."""
    if use.by != STEP:
        found, near = f"{use.what} belongs to no hazard", ""
    else:
        found = f"{use.what} carries out {use.id!r}, which no hazard lists"
        near = nearest(use.id, (control.id for control in controls))
    return Problem(use.place, found, advice=near or f"add {use.id} to a hazard")


def _also(
    assessment: Assessment, hazard: Hazard, controls: tuple[Control, ...]
) -> Iterator[Problem]:
    """Shared control measures that are none, or that the hazard lists as its own."""
    place, own = _place(assessment, hazard), {control.id for control in hazard.controls}
    names = {control.id for control in controls}
    for name in hazard.also:
        if name in own:
            found = f"hazard {hazard.id!r} names its own control measure {name!r} under also"
            yield Problem(place, found, advice="leave it out there")
        elif name not in names:
            found = f"hazard {hazard.id!r} shares control measure {name!r}, which no hazard lists"
            yield Problem(place, found, advice=nearest(name, names))
