"""The words of every language, made of the texts of the sequences and of the language files."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from kiosk.content.languages import ENGLISH, Texts
from kiosk.content.library import Library
from kiosk.content.making import machine_of, machine_texts, recovery_texts, step_texts
from kiosk.content.people import people_texts
from kiosk.content.risk import assessment_of, assessment_texts
from kiosk.core.words import Words

_QUOTES = "{control."
_QUOTED = re.compile(r"\{(control\.\w+)\}")


def english_of(library: Library) -> dict[str, str]:
    """The texts written in the sequences, and over them those of `en.yaml`."""
    texts: dict[str, str] = {}
    for trouble, recovery in library.recoveries.items():
        texts.update(recovery_texts(trouble, recovery.form))
    for name, shelf in (("material", library.materials), ("bit", library.bits)):
        texts.update({f"{name}.{id}": str(filed.form.name) for id, filed in shelf.items()})
    texts.update({f"job.{id}": str(filed.form.name) for id, filed in library.jobs.items()})
    texts.update(_machine_texts(library))
    if library.drilling:
        texts.update(step_texts(library.drilling.form.steps))
    if library.assessment:
        texts.update(assessment_texts(assessment_of(library.assessment.form, "")))
    texts.update(people_texts(library))
    for id, word in library.glossary.items():
        texts[f"word.{id}"] = str(word.form.means)
        texts[f"word.{id}.forms"] = "\n".join(word.form.forms)
    texts.update(_plain(library.languages.get(ENGLISH, {})))
    return texts


def _machine_texts(library: Library) -> dict[str, str]:
    """Names and pre-use lines; a machine's own line only where it is not the first one's."""
    texts: dict[str, str] = {}
    for id, machine in reversed(library.machines.items()):
        texts.update(machine_texts(machine_of(id, machine.form, machine.file)))
    for id, machine in library.machines.items():
        for item in machine.form.pre_use:
            if texts[f"pre_use.{id}.{item}"] == texts[f"pre_use.{item}"]:
                del texts[f"pre_use.{id}.{item}"]
    return texts


def words_of(
    base: Library, school: Library | None, shipped: Texts, english: Texts, language: str
) -> Words:
    """The words of a language, with those of all others beside them; English where it is unknown.

    `shipped` has the shipped English texts, `english` those of both folders. A shipped
    translation stands only while what it translates does: where the school has its own English
    text, the school's text stands until its own language file has a translation.
    """
    changed = {key for key, text in english.items() if shipped.get(key, text) != text}
    found = {ENGLISH: _words(ENGLISH, english)}
    owned = school.languages if school else {}
    for code in base.languages | owned:
        if code != ENGLISH:
            kept = {k: t for k, t in base.languages.get(code, {}).items() if k not in changed}
            own = owned.get(code, {})
            found[code] = _words(code, {**english, **_nameless(code), **_plain({**kept, **own})})
    for code, words in found.items():
        found[code] = replace(words, others=found)
    return found.get(language, found[ENGLISH])


def _words(code: str, texts: Mapping[str, str]) -> Words:
    return Words(code, _quoting(texts), texts.get("decimal", "."))


def _quoting(texts: Mapping[str, str]) -> Mapping[str, str]:
    """The texts with the words of control measures where a step quotes one: `{control.eyes}`."""

    def measure(found: re.Match[str]) -> str:
        return texts.get(found[1], "")

    return {k: _QUOTED.sub(measure, t) if _QUOTES in t else t for k, t in texts.items()}


def _nameless(code: str) -> dict[str, str]:
    """What a file that says nothing of its language stands for."""
    return {"language": code, "checked_by": ""}


def _plain(texts: Mapping[str, str]) -> dict[str, str]:
    return {str(key): str(text).rstrip("\n") for key, text in texts.items()}
