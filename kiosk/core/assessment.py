"""The risk assessment held against what carries it out: nothing left over on either side.

`content` asks `left_over` once everything is read. Steps carry out control measures, house rules
enforce them, and the machine's pre-use check looks at what was installed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kiosk.core.model import Assessment, Control, Machine, Sequence
from kiosk.core.problems import Place, Problem, nearest

STEP, RULE, CHECK = "step", "house rule", "installation check"


@dataclass(frozen=True)
class Used:
    """One use of a control measure's id outside the assessment, with its place."""

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
    used = (*_in_steps(sequences), *_in_rules(assessment, rules), *_in_checks(machines))
    unknown = {use.id for use in used} - {control.id for control in controls}
    missing = dict(_not_carried_out(assessment, controls, used, machines, unknown))
    taken = {name for name in unknown for p in missing.values() if repr(name) in p.advice}
    strangers = (use for use in used if use.id in unknown - taken)
    return (
        *_written_twice(assessment, controls),
        *missing.values(),
        *(_stranger(use, controls) for use in strangers),
    )


def controls_of(assessment: Assessment) -> tuple[Control, ...]:
    """All control measures, in the order of the hazards."""
    return tuple(control for hazard in assessment.hazards for control in hazard.controls)


def _in_steps(sequences: tuple[Sequence, ...]) -> Iterator[Used]:
    for sequence in sequences:
        for step in sequence.steps:
            for name in step.controls:
                yield Used(name, Place(sequence.file, step.line), STEP, f"step {step.id!r}")


def _in_rules(assessment: Assessment, rules: tuple[str, ...]) -> Iterator[Used]:
    for rule in rules:
        yield Used(rule, Place(assessment.file), RULE, f"house rule {rule!r}")


def _in_checks(machines: tuple[Machine, ...]) -> Iterator[Used]:
    for machine in machines:
        for item in machine.pre_use:
            yield Used(item.id, Place(machine.file), CHECK, f"pre-use line {item.id!r}")


def _written_twice(assessment: Assessment, controls: tuple[Control, ...]) -> Iterator[Problem]:
    seen: set[str] = set()
    for control in controls:
        if control.id in seen:
            place = Place(assessment.file, control.line)
            yield Problem(place, f"control measure {control.id!r} is written twice")
        seen.add(control.id)


def _not_carried_out(
    assessment: Assessment,
    controls: tuple[Control, ...],
    used: tuple[Used, ...],
    machines: tuple[Machine, ...],
    unknown: set[str],
) -> Iterator[tuple[str, Problem]]:
    """Each control measure that nothing of its kind carries out, with its problem."""
    uses = {(use.by, use.id) for use in used}
    for control in controls:
        place = Place(assessment.file, control.line)
        if (control.by, control.id) not in uses:
            found = f"no {control.by} carries out control measure {control.id!r}"
            advice = nearest(control.id, unknown) or _WHERE[control.by]
            yield control.id, Problem(place, found, advice=advice)
        elif control.by == CHECK and (without := _machines_without(control, machines)):
            found = f"the pre-use check of {without} has no line {control.id!r}"
            yield control.id, Problem(place, found, advice=f"add it to pre_use of {without}")


_WHERE = {
    STEP: "name it in the controls of the step that carries it out",
    RULE: "house rules stand in the code; carry it out by a step",
    CHECK: "add it to pre_use of the machine",
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
