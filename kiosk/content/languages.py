"""Languages: each a file of texts that stand in place of the English ones.

English is written in the sequences themselves and in `en.yaml`. Another language's file has the
same keys. What it lacks stays English, key by key; what it has must fit: a key that there is, the
same places to fill in, its own plural forms.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kiosk.content.known import place_of
from kiosk.content.library import Library
from kiosk.content.people import people_texts
from kiosk.core.plan.trials import asked_in
from kiosk.core.problems import Place, Problem, nearest
from kiosk.core.words import plural_forms

Problems = Iterator[Problem]
Texts = Mapping[str, str]

ENGLISH = "en"
OWN_KEYS = ("language", "decimal", "checked_by")  # what a file says of its own language
ALL_FORMS = ("zero", "one", "two", "few", "many", "other")
STEP_TEXTS = ("title", "say", "see", "note", "why", "check")


def language_problems(
    base: Library, school: Library | None, shipped: Texts, english: Texts
) -> Problems:
    """Every problem of the shipped languages, and of the school's own files.

    `shipped` has the shipped English texts, `english` those of both folders. A translation is held
    against the English that it was made from: the school's own, if it has one.
    """
    known = known_texts(base) | (known_texts(school) if school else set())
    for code, texts in base.languages.items():
        yield from _file(code, texts, texts, shipped, known)
    for code, texts in school.languages.items() if school else ():
        whole = {**base.languages.get(code, {}), **texts}
        yield from _file(code, texts, whole, shipped if code == ENGLISH else english, known)


def _file(code: str, texts: Texts, whole: Texts, english: Texts, known: set[str]) -> Problems:
    """What is wrong in one file; `whole` has the shipped texts of its language too."""
    counting = counted(english)
    for key, text in texts.items():
        at = place_of(key, Place(f"languages/{code}.yaml"))
        stem, _, form = key.rpartition(".")
        if stem in counting and form in ALL_FORMS:
            yield from _form(at, code, stem, form, whole)
            yield from _places(at, key, text, english[f"{stem}.other"])
        elif known and key not in known:
            found = f"no screen or step asks for {str(key)!r}"
            yield Problem(at, found, advice=nearest(key, known))
        elif not text.strip() and english.get(key, "text").strip():
            yield Problem(at, f"{key!s} is empty", "a text", "what nobody can read helps nobody")
        elif key in english and not (code == ENGLISH and key.startswith("step.")):
            yield from _places(at, key, text, english[key])


def _form(at: Place, code: str, stem: str, form: str, texts: Texts) -> Problems:
    """A plural form that the language does not have, or the first one where others are missing."""
    forms = plural_forms(code)
    if form not in forms:
        found = f"{stem} has a plural form {form!r}"
        yield Problem(at, found, ", ".join(forms), "the forms go by the language's own rule")
        return
    given = [name for name in ALL_FORMS if f"{stem}.{name}" in texts]
    missing = [name for name in forms if name not in given]
    if missing and set(given) <= set(forms) and form == given[0]:
        found = f"{stem} lacks the plural form {', '.join(missing)}"
        yield Problem(at, found, ", ".join(forms))


def _places(at: Place, key: str, text: str, english: str) -> Problems:
    """The same places to fill in as in English, each as often as one likes."""
    try:
        found, wanted = asked_in(text), asked_in(english)
    except ValueError:
        yield Problem(at, f"a single brace in {key!s}", "{name} with a name in braces")
        return
    if found != wanted:
        said = f"{key!s} has {_braced(found) or 'no place'}"
        yield Problem(at, said, _braced(wanted) or "no place", "fill in what the English one does")


def _braced(names: set[str]) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(names))


def counted(english: Texts) -> set[str]:
    """The keys of texts that have plural forms."""
    return {key[:-6] for key in english if key.endswith(".other") and f"{key[:-6]}.one" in english}


def asked_of(code: str, english: Texts, jobs: set[str]) -> tuple[str, ...]:
    """The keys a whole language has, in the order of the English ones.

    Names of machines and jobs are the school's own: they may be translated, and need not be.
    """
    counting, asked = counted(english), list[str]()
    own = {f"job.{job}" for job in jobs}
    for key, text in english.items():
        stem, _, form = key.rpartition(".")
        if stem in counting and form in ALL_FORMS:
            asked += [f"{stem}.{name}" for name in plural_forms(code)]
        elif text and not key.startswith("machine.") and key not in own:
            asked.append(key)
    return tuple(dict.fromkeys(asked))


def untranslated(library: Library, english: Texts) -> Problems:
    """For each language file that is not whole, how many of its texts stay English."""
    for code, texts in library.languages.items():
        asked = asked_of(code, english, set(library.jobs))
        missing = [key for key in asked if key not in texts] if code != ENGLISH else []
        if missing:
            some = ", ".join(missing[:3]) + (" …" if missing[3:] else "")
            found = f"{len(missing)} of {len(asked)} texts are missing: {some}"
            yield Problem(Place(f"languages/{code}.yaml"), found, advice="they stay English")


def known_texts(library: Library) -> set[str]:
    """The keys of every text there is a place for."""
    filed = [library.drilling] if library.drilling else []
    steps = [s for f in (*filed, *library.recoveries.values()) for s in f.form.steps]
    keys = {f"step.{step.id}.{name}" for step in steps for name in STEP_TEXTS}
    keys |= {f"trouble.{t}.{name}" for t in library.recoveries for name in ("title", "now")}
    shelves = {"material": library.materials, "bit": library.bits, "job": library.jobs}
    keys |= {f"{name}.{id}" for name, shelf in shelves.items() for id in shelf}
    keys |= {f"word.{id}{end}" for id in library.glossary for end in ("", ".forms")}
    english = library.languages.get(ENGLISH, {}) if library.drilling else {}
    keys |= {key for key, _ in people_texts(library)}
    return keys | _machines(library) | _risks(library) | set(english) | set(OWN_KEYS)


def _machines(library: Library) -> set[str]:
    keys = {f"machine.{id}" for id in library.machines}
    for id, machine in library.machines.items():
        keys |= {f"pre_use.{item}" for item in machine.form.pre_use}
        keys |= {f"pre_use.{id}.{item}" for item in machine.form.pre_use}
    return keys


def _risks(library: Library) -> set[str]:
    if library.assessment is None:
        return set()
    form = library.assessment.form
    hazards, checks = form.hazards or {}, form.installation or {}
    controls = {f"control.{name}" for hazard in hazards.values() for name in hazard.controls}
    return {f"hazard.{id}" for id in hazards} | controls | {f"look.{id}" for id in checks}
