"""From the forms of `people.yaml` and `questions.yaml` to the model's policy, and their texts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, replace

from kiosk.content.library import Filed, Library
from kiosk.content.people_forms import PeopleForm, QuestionForm
from kiosk.content.values import days_of
from kiosk.core.model import Policy, Question
from kiosk.core.problems import Place, Problem

RIGHT = "right"
LEAST_WRONG, MOST_WRONG = 1, 4
INTERVALS = ("level_lasts", "level_lapses")


def policy_of(library: Library) -> Policy:
    """What the school has settled about people; what no file says is as in the model."""
    form = library.people.form if library.people else PeopleForm()
    usual = Policy()
    return Policy(
        shuffled=_or(form.mixed_pad, usual.shuffled),
        names=_or(form.names, usual.names),
        questions_first=_or(form.questions_first, usual.questions_first),
        lasts=days_of(form.level_lasts) if form.level_lasts else usual.lasts,
        lapses=days_of(form.level_lapses) if form.level_lapses else usual.lapses,
        watched=tuple(str(id) for id in form.watched or {}),
        questions=tuple(_question(str(id), f.form) for id, f in library.questions.items()),
    )


def _or(given: bool | None, usual: bool) -> bool:
    return usual if given is None else given


def _question(id: str, form: QuestionForm) -> Question:
    return Question(id, tuple(name for name, _ in _answers(form)), RIGHT)


def _answers(form: QuestionForm) -> Iterator[tuple[str, str]]:
    yield RIGHT, str(form.right)
    yield from ((f"wrong_{n}", str(text)) for n, text in enumerate(form.wrong, 1))


def people_texts(library: Library) -> Iterator[tuple[str, str]]:
    """The texts of what may be watched, and of questions, answers and reasons."""
    if library.people:
        watched = library.people.form.watched or {}
        yield from ((f"watched.{id}", str(text)) for id, text in watched.items())
    for id, filed in library.questions.items():
        yield f"question.{id}", str(filed.form.ask)
        yield f"question.{id}.why", str(filed.form.why)
        yield from ((f"question.{id}.{name}", text) for name, text in _answers(filed.form))


def people_problems(library: Library) -> Iterator[Problem]:
    """Questions that can't be asked."""
    for id, filed in library.questions.items():
        count = len(filed.form.wrong)
        if not LEAST_WRONG <= count <= MOST_WRONG:
            found = f"question {id!s} has {count} wrong answers"
            allowed = f"{LEAST_WRONG} to {MOST_WRONG}"
            yield Problem(Place(filed.file, filed.form.line), found, allowed)


def looser_people(base: PeopleForm, school: Filed[PeopleForm]) -> Iterator[Problem]:
    """Where a school's levels would hold longer than the shipped ones, or a question be spared."""
    place = Place(school.file, school.form.line)
    for name in INTERVALS:
        own, shipped = getattr(school.form, name), getattr(base, name)
        if own and shipped and days_of(own) > days_of(shipped):
            yield Problem(place, f"{name} {own!s}", f"{shipped!s} or less")
    if base.questions_first and school.form.questions_first is False:
        yield Problem(place, "questions_first no", "yes", "the shipped folder asks them first")


def people_over(
    base: Filed[PeopleForm] | None, school: Filed[PeopleForm] | None
) -> Filed[PeopleForm] | None:
    """The school's settings over the shipped ones, each by itself."""
    if base is None or school is None:
        return base or school
    names = [f.name for f in fields(PeopleForm) if f.name != "line"]
    given: Mapping[str, object] = {
        n: getattr(school.form, n) for n in names if getattr(school.form, n) is not None
    }
    return Filed(school.file, replace(base.form, line=school.form.line, **given))  # type: ignore[arg-type]
