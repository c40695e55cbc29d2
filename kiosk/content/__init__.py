"""YAML in, core values out; every mistake a problem with its file and line."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from kiosk.content.agreeing import disagreements, doubts
from kiosk.content.broken_plans import broken_plans, unanswered
from kiosk.content.library import Library, missing, read_library, strange_files
from kiosk.content.making import (
    bit_of,
    job_of,
    machine_of,
    machine_texts,
    material_of,
    recovery_texts,
    sequence_of,
    step_texts,
)
from kiosk.content.merging import laid_over
from kiosk.content.risk import assessment_of, assessment_texts, checks_of
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
    library = _read(base, school, language)
    words = _words(library, language)
    if library.problems or library.drilling is None or library.assessment is None:
        return Loaded(None, words, tuple(sorted(library.problems)))
    content = _content(library)
    problems = [*disagreements(library), *_orphans(content)]
    if not problems:
        problems = [*unanswered(content)] + ([*broken_plans(content, base.name)] if school else [])
    if problems:
        return Loaded(None, words, tuple(sorted(problems)))
    return Loaded(content, words, (), doubts(content.machines))


def _read(base: Path, school: Path | None, language: str) -> Library:
    """Both folders as one library; where the school's would loosen, its problems say so."""
    library = read_library(base, language)
    missing(library, base)
    library.problems += stray_places(library)
    if school is None:
        return library
    own = read_library(school, language)
    own.problems += strange_files(school)
    own.problems += loosened(library, own)
    return laid_over(library, own)


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
    )


def _words(library: Library, language: str) -> Words:
    """The texts of the sequences, and over them those of the language file."""
    texts: dict[str, str] = {}
    for trouble, recovery in library.recoveries.items():
        texts.update(recovery_texts(trouble, recovery.form))
    for name, shelf in (("material", library.materials), ("bit", library.bits)):
        texts.update({f"{name}.{id}": str(filed.form.name) for id, filed in shelf.items()})
    texts.update({f"job.{id}": str(filed.form.name) for id, filed in library.jobs.items()})
    for id, machine in reversed(library.machines.items()):  # the first one's words stand alone
        texts.update(machine_texts(machine_of(id, machine.form, machine.file)))
    if library.drilling:
        texts.update(step_texts(library.drilling.form.steps))
    if library.assessment:
        texts.update(assessment_texts(assessment_of(library.assessment.form, "")))
    for id, word in library.glossary.items():
        texts[f"word.{id}"] = str(word.form.means)
        texts[f"word.{id}.forms"] = "\n".join(word.form.forms)
    texts.update((str(key), str(text)) for key, text in library.language.items())
    return Words(language, texts, texts.get("decimal", "."))
