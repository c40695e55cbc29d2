"""YAML in, core values out; every mistake a problem with its file and line."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from kiosk.content.agreeing import disagreements, doubts
from kiosk.content.broken_plans import broken_plans, unanswered
from kiosk.content.languages import language_problems, untranslated
from kiosk.content.library import Library, missing, read_library, strange_files
from kiosk.content.making import (
    bit_of,
    job_of,
    machine_of,
    material_of,
    sequence_of,
)
from kiosk.content.merging import laid_over
from kiosk.content.people import policy_of
from kiosk.content.quiet import quiet_of, quiet_problems
from kiosk.content.risk import assessment_of, checks_of
from kiosk.content.speaking import english_of, words_of
from kiosk.content.standing import stray_places
from kiosk.content.tightening import loosened
from kiosk.core.assessment import left_over
from kiosk.core.model import Content
from kiosk.core.plan.recovering import ALL_RULE_IDS
from kiosk.core.problems import Problem
from kiosk.core.words import Words

__all__ = ["Loaded", "load"]


@dataclass(frozen=True)
class Loaded:
    """What was read. `content` is None if there are problems; doubts are only worth a look."""

    content: Content | None
    words: Words
    problems: tuple[Problem, ...]
    doubts: tuple[Problem, ...] = ()


def load(base: Path, school: Path | None = None, language: str = "en") -> Loaded:
    """All content below `base`, with a school's own folder over it, and its words.

    Never raises for what is written in the files: every mistake is one problem.
    """
    shipped, own = _shipped(base), _own(school)
    library = _together(shipped, own)
    shipped_english = english_of(shipped)
    english = english_of(library) if own else shipped_english
    words = words_of(shipped, own, shipped_english, english, language)
    if library.problems or library.drilling is None or library.assessment is None:
        return Loaded(None, words, tuple(sorted(library.problems)))
    if clocks := tuple(quiet_problems(library)):
        return Loaded(None, words, tuple(sorted(clocks)))
    content = _content(library)
    problems = [*disagreements(library), *_orphans(content)]
    # a language is looked at once what it translates is right, and plans after it
    problems = problems or [*language_problems(shipped, own, shipped_english, english)]
    plans = broken_plans(content, base.name) if school else ()
    problems = problems or [*unanswered(content), *plans]
    if problems:
        return Loaded(None, words, tuple(sorted(problems)))
    found = (*doubts(content.machines), *untranslated(library, english))
    return Loaded(content, words, (), found)


def _shipped(base: Path) -> Library:
    library = read_library(base)
    missing(library, base)
    library.problems += stray_places(library)
    return library


def _own(school: Path | None) -> Library | None:
    if school is None:
        return None
    own = read_library(school)
    own.problems += strange_files(school)
    return own


def _together(shipped: Library, own: Library | None) -> Library:
    """Both folders as one library; where the school's would loosen, its problems say so."""
    if own is None:
        return shipped
    own.problems += loosened(shipped, own)
    return laid_over(shipped, own)


def _orphans(content: Content) -> tuple[Problem, ...]:
    sequences = (content.drilling, *content.recoveries)
    return left_over(content.assessment, sequences, content.machines, ALL_RULE_IDS)


def _content(library: Library) -> Content:
    drilling, assessment = library.drilling, library.assessment
    assert drilling is not None and assessment is not None
    return Content(
        machines=tuple(machine_of(k, f.form, f.file) for k, f in library.machines.items()),
        materials=tuple(material_of(k, f.form) for k, f in library.materials.items()),
        bits=tuple(bit_of(k, f.form) for k, f in library.bits.items()),
        jobs=tuple(job_of(k, f.form, f.file) for k, f in library.jobs.items()),
        drilling=sequence_of("drilling", "drilling", drilling.form.steps, drilling.file),
        recoveries=tuple(
            sequence_of(k, "recovery", f.form.steps, f.file) for k, f in library.recoveries.items()
        ),
        assessment=assessment_of(assessment.form, assessment.file),
        checks=checks_of(library.checks.form if library.checks else None),
        people=policy_of(library),
        quiet=quiet_of(library.quiet),
    )
