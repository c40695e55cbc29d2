"""A school's folder laid over the shipped one, entry by entry, by name.

An entry of the school (a machine, a material, a step, a hazard ...) stands in place of the
shipped one of the same name; a new one is added. Nothing can be taken away. `tightening` says
what of it is refused.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import TypeVar

from kiosk.content.forms import (
    AssessmentForm,
    ChecksForm,
    DrillingForm,
    RecoveryForm,
    StepForm,
)
from kiosk.content.library import Filed, Library
from kiosk.content.people import people_over
from kiosk.core.problems import Place, Problem, nearest

Steps = tuple[StepForm, ...]
Value = TypeVar("Value")


def laid_over(base: Library, school: Library) -> Library:
    """The two as one."""
    return Library(
        machines=base.machines | school.machines,
        materials=base.materials | school.materials,
        bits=base.bits | school.bits,
        jobs=base.jobs | school.jobs,
        recoveries=base.recoveries | dict(_recoveries(base, school)),
        drilling=_drilling(base.drilling, school.drilling),
        assessment=_assessment(base.assessment, school.assessment),
        checks=_checks(base.checks, school.checks),
        people=people_over(base.people, school.people),
        quiet=school.quiet or base.quiet,
        questions=_over(base.questions, school.questions),
        glossary=base.glossary | school.glossary,
        languages=_languages(base.languages, school.languages),
        problems=[*base.problems, *school.problems],
    )


def _languages(
    base: dict[str, dict[str, str]], school: dict[str, dict[str, str]]
) -> dict[str, dict[str, str]]:
    """Text by text; each key is the one written beside its text, with its file."""
    both = base | school
    return {code: _over(base.get(code, {}), school.get(code, {})) for code in both}


def _drilling(
    base: Filed[DrillingForm] | None, school: Filed[DrillingForm] | None
) -> Filed[DrillingForm] | None:
    if base is None or school is None:
        return base or school
    return Filed(base.file, DrillingForm(steps_over(base.form.steps, school.form.steps)))


def _recoveries(base: Library, school: Library) -> Iterator[tuple[str, Filed[RecoveryForm]]]:
    for trouble, filed in school.recoveries.items():
        shipped = base.recoveries.get(trouble)
        steps = steps_over(shipped.form.steps if shipped else (), filed.form.steps)
        yield trouble, Filed(filed.file, replace(filed.form, steps=steps))


def _assessment(
    base: Filed[AssessmentForm] | None, school: Filed[AssessmentForm] | None
) -> Filed[AssessmentForm] | None:
    if base is None or school is None:
        return base or school
    hazards = _over(base.form.hazards or {}, school.form.hazards or {})
    installation = _over(base.form.installation or {}, school.form.installation or {})
    form = replace(school.form, hazards=hazards, installation=installation)
    return Filed(school.file, form)


def _over(base: dict[str, Value], school: dict[str, Value]) -> dict[str, Value]:
    """In the base's order; each key is the one written beside its value, with its file."""
    own = {id: id for id in school}
    return {own.get(id, id): school.get(id, value) for id, value in base.items()} | school


def _checks(
    base: Filed[ChecksForm] | None, school: Filed[ChecksForm] | None
) -> Filed[ChecksForm] | None:
    if base is None or school is None:
        return base or school
    names = [f.name for f in fields(ChecksForm) if f.name not in ("line", "where")]
    given = {n: getattr(school.form, n) for n in names if getattr(school.form, n) is not None}
    where = (*(base.form.where or ()), *(school.form.where or ()))
    return Filed(school.file, replace(base.form, where=where, line=school.form.line, **given))


def steps_over(base: Steps, school: Steps) -> Steps:
    """The school's steps among the shipped ones: the same id in its place, a new one after its own.

    New steps with the same `after` keep their order.
    """
    steps = [next((s for s in school if s.id == step.id), step) for step in base]
    shipped, last = {step.id for step in base}, dict[str, str]()
    for step in school:
        if step.id not in shipped:
            anchor = last.get(str(step.after), str(step.after))
            at = next((i for i, other in enumerate(steps) if other.id == anchor), len(steps) - 1)
            steps.insert(at + 1, step)
            last[str(step.after)] = str(step.id)
    return tuple(steps)


def misplaced(file: str, base: Steps, school: Steps) -> Iterator[Problem]:
    """New steps of a school that do not say where they stand, and shipped ones that would move."""
    known = [str(step.id) for step in base]
    shipped = set(known)
    for step in school:
        place = Place(file, step.line)
        if step.id in shipped and step.id in known[len(base) :]:
            yield Problem(
                place, f"step {str(step.id)!r} is written twice", advice="keep one of them"
            )
        elif step.id in shipped and step.after is not None:
            yield Problem(place, f"step {step.id!s} has after, and a shipped step keeps its place")
        elif step.id not in shipped and step.after is None:
            found = f"step {step.id!s} is new and does not say after which step it stands"
            yield Problem(place, found, "after: the id of a step")
        elif step.after is not None and step.after not in known:
            found = f"after {str(step.after)!r}"
            yield Problem(place, found, "the id of a step", nearest(step.after, known))
        known.append(str(step.id))
