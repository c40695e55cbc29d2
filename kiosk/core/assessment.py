"""The risk assessment held against what carries it out: nothing left over on either side.

`content` asks `left_over` once everything is read. Steps carry out control measures, house rules
enforce them, and the machine's pre-use check looks at what was installed.
"""

from __future__ import annotations

from collections.abc import Iterable

from kiosk.core.model import Assessment, Control, Machine, Sequence
from kiosk.core.problems import Place, Problem, nearest

STEP, RULE, CHECK = "step", "house rule", "installation check"


def left_over(
    assessment: Assessment,
    sequences: tuple[Sequence, ...],
    machines: tuple[Machine, ...],
    rules: tuple[str, ...],
) -> tuple[Problem, ...]:
    """Control measures that nothing carries out, and what carries out none that is written."""
    controls = controls_of(assessment)
    known = {control.id for control in controls}
    return (
        *_written_twice(assessment, controls),
        *_not_carried_out(assessment, controls, _by_steps(sequences), set(rules), machines),
        *_unknown_in_steps(sequences, known),
        *_rules_without(assessment, rules, known),
        *_checks_without(machines, known),
    )


def controls_of(assessment: Assessment) -> tuple[Control, ...]:
    """All control measures, in the order of the hazards."""
    return tuple(control for hazard in assessment.hazards for control in hazard.controls)


def _by_steps(sequences: tuple[Sequence, ...]) -> set[str]:
    return {name for seq in sequences for step in seq.steps for name in step.controls}


def _written_twice(assessment: Assessment, controls: tuple[Control, ...]) -> Iterable[Problem]:
    seen: set[str] = set()
    for control in controls:
        if control.id in seen:
            place = Place(assessment.file, control.line)
            yield Problem(place, f"control measure {control.id!r} is written twice")
        seen.add(control.id)


def _not_carried_out(
    assessment: Assessment,
    controls: tuple[Control, ...],
    by_steps: set[str],
    rules: set[str],
    machines: tuple[Machine, ...],
) -> Iterable[Problem]:
    for control in controls:
        place = Place(assessment.file, control.line)
        wrong = f"control measure {control.id!r}"
        if control.by == STEP and control.id not in by_steps:
            advice = f"write controls: [{control.id}] in the step that carries it out"
            yield Problem(place, f"no step carries out {wrong}", advice=advice)
        if control.by == RULE and control.id not in rules:
            yield Problem(place, f"no house rule {control.id!r}", ", ".join(sorted(rules)))
        if control.by == CHECK:
            yield from _not_on_machines(place, control, machines)


def _not_on_machines(
    place: Place, control: Control, machines: tuple[Machine, ...]
) -> Iterable[Problem]:
    for machine in machines:
        if control.id not in {item.id for item in machine.pre_use}:
            found = f"the pre-use check of {machine.id} has no line {control.id!r}"
            yield Problem(place, found, advice=f"add it to pre_use of {machine.id}")


def _unknown_in_steps(sequences: tuple[Sequence, ...], known: set[str]) -> Iterable[Problem]:
    for sequence in sequences:
        for step in sequence.steps:
            for name in step.controls:
                if name not in known:
                    found = f"step {step.id!r} carries out {name!r}, which no hazard lists"
                    advice = nearest(name, known)
                    yield Problem(Place(sequence.file, step.line), found, advice=advice)


def _rules_without(
    assessment: Assessment, rules: tuple[str, ...], known: set[str]
) -> Iterable[Problem]:
    for rule in rules:
        if rule not in known:
            found = f"house rule {rule!r} belongs to no hazard"
            yield Problem(Place(assessment.file), found, advice=f"add {rule} to a hazard")


def _checks_without(machines: tuple[Machine, ...], known: set[str]) -> Iterable[Problem]:
    for machine in machines:
        for item in machine.pre_use:
            if item.id not in known:
                found = f"pre-use line {item.id!r} belongs to no hazard"
                yield Problem(Place(machine.file), found, advice=nearest(item.id, known))
