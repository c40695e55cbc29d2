"""From the forms of `assessment.yaml` and `checks.yaml` to values of `core.model`, and texts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kiosk.content.risk_forms import AssessmentForm, ChecksForm, ControlForm, HazardForm
from kiosk.core.model import (
    Assessment,
    Checks,
    Control,
    Hazard,
    InstallationCheck,
    Level,
    When,
)

SHIPPED = Checks()
SIZES = ("over", "sheet_under", "work_under")


def assessment_of(form: AssessmentForm, file: str) -> Assessment:
    """The risk assessment as written in its file."""
    checks = (
        InstallationCheck(str(id), str(c.look), str(c.every), c.line, _file(id), c.out_of_use)
        for id, c in (form.installation or {}).items()
    )
    return Assessment(
        hazards=tuple(_hazard(id, hazard) for id, hazard in (form.hazards or {}).items()),
        owner=str(form.owner),
        review=str(form.review),
        eye_protection=str(form.eye_protection),
        invented=form.invented,
        file=file,
        signed=str(form.signed or ""),
        installation=tuple(checks),
    )


def _hazard(id: str, form: HazardForm) -> Hazard:
    return Hazard(
        id=str(id),
        name=str(form.name),
        harm=str(form.harm),
        who=tuple(map(str, form.who)),
        controls=tuple(_control(name, control) for name, control in form.controls.items()),
        residual=str(form.residual),
        line=form.line,
        by_year=str(form.by_year),
        by_need=str(form.by_need),
        also=tuple(map(str, form.also)),
        file=_file(id),
    )


def _control(id: str, form: ControlForm) -> Control:
    return Control(
        id=str(id),
        text=str(form.text),
        by=str(form.by),
        line=form.line,
        file=_file(id),
        at=tuple(map(str, form.at)),
        levels=form.levels,
        when=when_of(form.when),
        unless=when_of(form.unless),
    )


def _file(key: str) -> str:
    """The name of the file a key was written in."""
    return str(getattr(key, "file", ""))


def checks_of(form: ChecksForm | None) -> Checks:
    """How often an adult looks, as written; what is left out is as shipped."""
    if form is None:
        return SHIPPED
    every = ((level, str(getattr(form, level.word) or SHIPPED.at(level))) for level in Level)
    sizes = {name: getattr(form, name) or getattr(SHIPPED, name) for name in SIZES}
    tests = tuple(when_of(line) for line in form.where or ())
    return Checks(tuple(every), where=tests, **sizes)


def when_of(form: Mapping[str, tuple[str, ...]] | None) -> When:
    """A condition as written."""
    return When(tuple((str(k), tuple(map(str, words))) for k, words in (form or {}).items()))


def assessment_texts(assessment: Assessment) -> Iterator[tuple[str, str]]:
    """The names of hazards, the texts of their control measures, and what is looked at for them."""
    for hazard in assessment.hazards:
        yield f"hazard.{hazard.id}", hazard.name
        for control in hazard.controls:
            yield f"control.{control.id}", control.text
    for check in assessment.installation:
        yield f"look.{check.id}", check.look
