"""All that a kiosk needs of its content before it starts: its machine, its language, its terms.

A package that a stick brings in is held against the same, so that what is taken in starts.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from kiosk.content import Loaded, load
from kiosk.content.retention import Retention, load_retention
from kiosk.content.written import Text
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


def load_for(
    machine: str,
    base: Path,
    school: Path | None,
    language: str = "en",
    without: bool = False,
) -> Starting:
    """All content for one machine, in one language, and every reason why no kiosk can start.

    Machine and language written in a settings' file are told with their line. `without`: the
    school's folder, which may have more of them, was not found.
    """
    loaded = load(base, school, language)
    kept_for, wrong = load_retention(base, school)
    found, unfound = None, tuple[Problem, ...]()
    if loaded.content is not None:
        found = loaded.content.machine(machine)
        names = [m.id for m in loaded.content.machines]
        unfound = _unknown("machine", machine, names, without)
    unspoken = _unknown("language", language, sorted(loaded.words.others), without)
    return Starting(loaded, found, kept_for, (*loaded.problems, *unfound, *wrong, *unspoken))


def _unknown(key: str, word: str, names: list[str], without: bool) -> tuple[Problem, ...]:
    """A machine that there is not, or a language that has no file and would be English."""
    if word in names:
        return ()
    found, place = repr(str(word)), Place(f"--{key}")
    if isinstance(word, Text) and word.file:
        found, place = f"{key}: {found}", Place(word.file, word.line)
    allowed = ", ".join(names) + (", and the school's own once its folder is found" * without)
    return (Problem(place, found, allowed, nearest(word, names)),)
