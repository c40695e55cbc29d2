"""How steps are worded: short sentences, short buttons, known places to fill in.

The limits are what fits the smaller panel and what an 11-year-old reads at a glance.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from string import Formatter

from kiosk.content.forms import StepForm
from kiosk.core.plan.figures import MACHINE_VALUES, VALUE_NAMES
from kiosk.core.problems import Place, Problem, nearest

MOST_WORDS = 12  # in a sentence
MOST_SENTENCES = 6  # in what a step says
LONGEST = {"title": 26, "see": 32, "check": 46}
EMPTY_WORDS = ("ok", "okay", "checked", "done", "yes", "next")
_SENTENCE = re.compile(r"[^.!?]+[.!?]*")


def wording(file: str, kind: str, step: StepForm) -> Iterator[Problem]:
    """Every problem of a step's texts."""
    for key, text in _texts(step):
        place = Place(file, getattr(text, "line", 0) or step.line)
        yield from text_problems(place, kind, key, text, quotable(step.controls))
    if step.see.strip(" .!").lower() in EMPTY_WORDS:
        place = Place(file, getattr(step.see, "line", step.line))
        found = f"the button says {str(step.see)!r}"
        yield Problem(place, found, advice="write what one sees when it is right")


def text_problems(
    place: Place, kind: str, key: str, text: str, quotable: tuple[str, ...] = ()
) -> Iterator[Problem]:
    """Every problem of one text of a step: its `title`, `say`, `see`, `note`, `why` or `check`.

    `quotable` are the places that are filled with the words of its control measures.
    """
    names = MACHINE_VALUES if kind == "recovery" else VALUE_NAMES
    yield from _places_to_fill(place, key, text, (*names, *quotable))
    for line in text.split("\n"):
        yield from _too_long(place, key, line)


def quotable(controls: Iterable[str]) -> tuple[str, ...]:
    """The places by which a step quotes the control measures that it carries out, and no others."""
    return tuple(f"control.{id}" for id in controls)


def _texts(step: StepForm) -> Iterator[tuple[str, str]]:
    for sentence in step.say:
        yield "say", sentence
    for key in ("title", "see", "note", "why", "check"):
        if text := getattr(step, key):
            yield key, text


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text."""
    return tuple(s.strip() for s in _SENTENCE.findall(_PLACE.sub("8", text)) if s.strip())


_PLACE = re.compile(r"\{[^{}]*\}")


def _too_long(place: Place, key: str, text: str) -> Iterator[Problem]:
    limit = LONGEST.get(key)
    if limit and len(_PLACE.sub("12 mm", text)) > limit:
        yield Problem(place, f"{key} has {len(text)} letters", f"at most {limit}")
    yield from sentence_problems(place, text)


def sentence_problems(place: Place, text: str) -> Iterator[Problem]:
    """Sentences of a text that are too long."""
    for sentence in sentences(text):
        count = len(sentence.split())
        if count > MOST_WORDS:
            yield Problem(place, f"a sentence of {count} words", f"at most {MOST_WORDS}")


def _places_to_fill(place: Place, key: str, text: str, names: tuple[str, ...]) -> Iterator[Problem]:
    try:
        asked = [name for _, name, _, _ in Formatter().parse(text) if name is not None]
    except ValueError:
        yield Problem(place, f"a single brace in {key}", "{name} with a name in braces")
        return
    for name in asked:
        if name not in names:
            found = f"unknown place {{{name}}} in {key}"
            yield Problem(place, found, ", ".join(names), nearest(name, names))
