"""Whether the assessment, the checks and the glossary say something that can be."""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.content.forms import AssessmentForm, ChecksForm, WordForm
from kiosk.content.known import known, place_of
from kiosk.content.library import Filed, Library
from kiosk.content.reading import words_of
from kiosk.content.risk_forms import ControlForm
from kiosk.content.standing import condition_problems
from kiosk.core.plan.conditions import NAMES
from kiosk.core.plan.measures import PATHS
from kiosk.core.problems import Place, Problem

Problems = Iterator[Problem]

MARKINGS = ("EN 166", "EN ISO 16321")
LONGEST_NAME = 22  # letters of a hazard's name, which stands on a button
MOST_MEANING = 12  # words of a plain meaning


def risk_problems(library: Library) -> Problems:
    """Every problem of assessment, checks and glossary in themselves."""
    if library.assessment:
        yield from _assessment(library.assessment)
        for hazard in (library.assessment.form.hazards or {}).values():
            for id, control in hazard.controls.items():
                yield from _places(place_of(id, Place(library.assessment.file)), control, library)
    if library.checks:
        yield from _checks(library.checks, library)
    yield from _glossary(library)


def _assessment(filed: Filed[AssessmentForm]) -> Problems:
    form, here = filed.form, Place(filed.file, filed.form.line)
    if not form.hazards:
        yield Problem(here, "the assessment has no hazards", "at least one")
    if not any(marking in form.eye_protection for marking in MARKINGS):
        place = place_of(form.eye_protection, here)
        yield Problem(place, f"eye_protection {str(form.eye_protection)!r}", " or ".join(MARKINGS))
    if form.signed and form.review <= form.signed:
        found = f"review {form.review!s} is not after signed {form.signed!s}"
        yield Problem(place_of(form.review, here), found, "a later day")
    for id, hazard in (form.hazards or {}).items():
        place = place_of(id, here)
        if len(hazard.name) > LONGEST_NAME:
            found = f"name of hazard {id!s} has {len(hazard.name)} letters"
            yield Problem(place_of(hazard.name, place), found, f"at most {LONGEST_NAME}")
        if not hazard.who:
            yield Problem(place, f"hazard {id!s} harms nobody", "who may be harmed")


def _places(place: Place, control: ControlForm, library: Library) -> Problems:
    """Where and when steps must carry a control measure out: known words, and both or neither."""
    for at in control.at:
        yield from known(place_of(at, place), "at", at, (*PATHS, *library.recoveries))
    for tests in (control.when or {}, control.unless or {}):
        yield from condition_problems(place, tests, tuple(NAMES), library)
    if control.at and control.by != "step":
        yield Problem(place, f"at is written for a {control.by!s}", "at only with by: step")
    if (control.when or control.unless or control.levels) and not control.at:
        yield Problem(place, "a condition is written, and no at", "at: [fresh]")


def _checks(filed: Filed[ChecksForm], library: Library) -> Problems:
    form, here = filed.form, Place(filed.file, filed.form.line)
    for tests in form.where or ():
        yield from condition_problems(here, tests, tuple(NAMES), library)
        if not tests:
            yield Problem(here, "a line of where is empty", "at least one condition")


def _glossary(library: Library) -> Problems:
    seen: dict[str, str] = {}
    for id, filed in library.glossary.items():
        place = Place(filed.file, filed.form.line)
        yield from _meaning(id, filed.form, place)
        for form in filed.form.forms:
            if seen.setdefault(form.lower(), id) != id:
                found = f"{str(form)!r} is a form of {id} and of {seen[form.lower()]}"
                yield Problem(place_of(form, place), found, advice="keep it in one of them")


def _meaning(id: str, form: WordForm, place: Place) -> Problems:
    count = len(words_of(form.means))
    if count > MOST_MEANING:
        found = f"the meaning of {id} has {count} words"
        yield Problem(place_of(form.means, place), found, f"at most {MOST_MEANING}")
    if not form.forms:
        yield Problem(place, f"{id} has no forms", "the word as it is written")
