"""Whether a school's step does all that the shipped step of the same id did."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from kiosk.content.forms import StepForm
from kiosk.content.library import Library
from kiosk.core.model import Needs
from kiosk.core.plan.requirements import HOUSE_RULES
from kiosk.core.problems import Place, Problem

Tests: TypeAlias = Mapping[str, tuple[str, ...]]
Reasons: TypeAlias = Mapping[str, str]  # by control measure
Change: TypeAlias = tuple[str, str]  # what was found, what is allowed

STRICTNESS = (Needs.NOTHING, Needs.STILL, Needs.ISOLATOR_OFF)


@dataclass(frozen=True)
class Pair:
    """The shipped step and the school's in its place."""

    before: StepForm
    after: StepForm


def reasons_of(base: Library) -> Reasons:
    """Why each control measure is there: its house rule's reason, else its own text."""
    hazards = (base.assessment.form.hazards or {}) if base.assessment else {}
    texts = {str(k): str(c.text) for h in hazards.values() for k, c in h.controls.items()}
    return texts | {rule.id: rule.reason for rule in HOUSE_RULES}


def looser_steps(
    file: str, base: tuple[StepForm, ...], school: tuple[StepForm, ...], why: Reasons
) -> Iterator[Problem]:
    """Every way in which the school's steps do less than the shipped ones of the same id."""
    shipped = {str(step.id): step for step in base}
    for step in school:
        if step.id in shipped:
            pair = Pair(shipped[str(step.id)], step)
            advice = reason(pair.before, why)
            for found, allowed in _changes(pair):
                place = Place(file, step.line)
                yield Problem(place, f"step {step.id!s} {found}", allowed, advice)


def reason(step: StepForm, why: Reasons) -> str:
    """Why the shipped step is there, by the first control measure that it carries out."""
    found = (why[str(name)] for name in step.controls if str(name) in why)
    return next(found, str(step.why or "the shipped step stands as it is"))


def _changes(pair: Pair) -> Iterator[Change]:
    before, after = pair.before, pair.after
    if after.part != before.part:
        yield f"has part {after.part!s}", f"part: {before.part!s}"
    if before.who == "adult" and after.who != "adult":
        yield "is no longer an adult's", "who: adult"
    if STRICTNESS.index(after.needs) < STRICTNESS.index(before.needs):
        yield f"needs {after.needs.value}", f"needs: {before.needs.value}"
    if before.check and not after.check:
        yield "no longer has a line for the adult", "a check line"
    yield from _lost(pair)
    if before.controls or before.makes or before.who == "adult":
        yield from _narrowed(pair)


def _lost(pair: Pair) -> Iterator[Change]:
    """Words of a list that the shipped step has and the school's does not."""
    for key in ("makes", "touches", "controls"):
        had = [_word(w) for w in getattr(pair.before, key)]
        has = [_word(w) for w in getattr(pair.after, key)]
        if gone := [word for word in had if word not in has]:
            yield f"no longer has {key}: {', '.join(gone)}", f"{key}: {', '.join(had)}"


def _word(word: object) -> str:
    return str(getattr(word, "value", word))


def _narrowed(pair: Pair) -> Iterator[Change]:
    """Ways, levels and conditions by which the step would stand more seldom."""
    before, after = pair.before, pair.after
    if gone := [str(p) for p in before.at if p not in after.at]:
        yield f"no longer stands at {', '.join(gone)}", f"at: {', '.join(map(str, before.at))}"
    if after.levels and (not before.levels or set(before.levels) - set(after.levels)):
        levels = ", ".join(level.value for level in before.levels) or "every level"
        yield f"stands only for {', '.join(v.value for v in after.levels)}", levels
    for name, words in (after.when or {}).items():
        shipped = (before.when or {}).get(name)
        if shipped is None or set(shipped) - set(words):
            yield f"stands only when {_test(name, words)}", _shown("when", before.when)
    for name, words in (after.unless or {}).items():
        if set(words) - set((before.unless or {}).get(name, ())):
            yield f"stands not when {_test(name, words)}", _shown("unless", before.unless)


def _test(name: str, words: Iterable[str]) -> str:
    return f"{name!s} is {' or '.join(map(str, words))}"


def _shown(key: str, tests: Tests | None) -> str:
    if not tests:
        return f"no {key}"
    return f"{key} " + ", ".join(_test(name, words) for name, words in tests.items())
