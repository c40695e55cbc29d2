"""All that a kiosk needs of its content before it starts: its machine, its language, its terms.

A package that a stick brings in is held against the same, so that what is taken in starts.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from kiosk.content import Loaded, load
from kiosk.content.retention import Retention, load_retention
from kiosk.core.model import Content, Machine
from kiosk.core.problems import Place, Problem, nearest
from kiosk.core.words import Words


@dataclass(frozen=True)
class Starting:
    """What was read for one machine. With `problems` no kiosk starts on it."""

    loaded: Loaded
    machine: Machine | None
    kept_for: Retention
    problems: tuple[Problem, ...]

    @property
    def content(self) -> Content | None:
        """All content; None if there are mistakes in it."""
        return self.loaded.content

    @property
    def words(self) -> Words:
        """The words of the kiosk's language."""
        return self.loaded.words


def load_for(machine: str, base: Path, school: Path | None, language: str = "en") -> Starting:
    """All content for one machine, in one language, and every reason why no kiosk can start."""
    loaded = load(base, school, language)
    found, problems = _machine(loaded, machine)
    kept_for, wrong = load_retention(base, school)
    problems = (*problems, *wrong, *_unspoken(language, loaded.words))
    return Starting(loaded, found, kept_for, problems)


def _machine(loaded: Loaded, id: str) -> tuple[Machine | None, tuple[Problem, ...]]:
    if loaded.content is None:
        return None, loaded.problems
    machine = loaded.content.machine(id)
    if machine is not None:
        return machine, loaded.problems
    names = [m.id for m in loaded.content.machines]
    found = Problem(Place("--machine"), repr(id), ", ".join(names), nearest(id, names))
    return None, (*loaded.problems, found)


def _unspoken(language: str, words: Words) -> tuple[Problem, ...]:
    """A language that has no file would be shown in English."""
    names = sorted(words.others)
    if language in names:
        return ()
    advice = nearest(language, names)
    return (Problem(Place("--language"), repr(language), ", ".join(names), advice),)
