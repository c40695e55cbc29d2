"""Whether steps and recoveries agree with each other and name only what there is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kiosk.content.forms import RecoveryForm, StepForm
from kiosk.content.known import known, place_of
from kiosk.content.library import Filed, Library
from kiosk.content.wording import quotable, sentence_problems, text_problems, wording
from kiosk.core.plan.conditions import MACHINE_NAMES, NAMES
from kiosk.core.problems import Place, Problem

Problems = Iterator[Problem]
Tests = Mapping[str, tuple[str, ...]]

TROUBLES = (
    "bit_broken",
    "bit_jammed",
    "work_spun",
    "smoke",
    "hurt",
    "alarm",
    "power",
    "gone",
)


def sequence_problems(library: Library) -> Problems:
    """Every problem of the drilling sequence, of the recoveries and of their steps."""
    for trouble, filed in library.recoveries.items():
        yield from known(Place(filed.file), "trouble", trouble, TROUBLES)
        yield from _recovery(filed)
    for trouble in TROUBLES:
        if trouble not in library.recoveries:
            yield Problem(Place(f"recovery/{trouble}.yaml"), "no such file", advice="put it back")
    yield from _steps(library)
    for texts in library.languages.values():
        yield from _texts(library, texts)


def _recovery(filed: Filed[RecoveryForm]) -> Problems:
    last = filed.form.steps[-1] if filed.form.steps else None
    here = Place(filed.file, filed.form.line)
    if last is None or last.who != "adult":
        place = place_of(last.id, here) if last else here
        yield Problem(place, "it does not end with an adult's step", "who: adult at the end")
    if not filed.form.now:
        yield Problem(here, "now is empty", "what to do at once")
    for sentence in filed.form.now:
        yield from sentence_problems(place_of(sentence, here), sentence)


def _steps(library: Library) -> Problems:
    seen: dict[str, str] = {}
    for base, kind, steps in _sequences(library):
        for step in steps:
            place = place_of(step.id, Place(base, step.line))
            place = Place(place.file, step.line)
            if step.id in seen:
                found = f"step {str(step.id)!r} is written twice, also in {seen[step.id]}"
                yield Problem(place, found, advice="give it another id")
            seen.setdefault(str(step.id), place.file)
            yield from _step(place, kind, step, library)
            yield from wording(place.file, kind, step)


def _texts(library: Library, texts: Mapping[str, str]) -> Problems:
    """Texts of steps in a language's own file: as short as those of the sequences."""
    known = {str(s.id): (kind, s) for _, kind, steps in _sequences(library) for s in steps}
    for key, text in texts.items():
        what, _, rest = key.partition(".")
        id, _, name = rest.partition(".")
        if what == "step" and id in known and name:
            kind, step = known[id]
            place = place_of(key, Place(""))
            yield from text_problems(place, kind, name, text, quotable(step.controls))


def _sequences(library: Library) -> Iterator[tuple[str, str, tuple[StepForm, ...]]]:
    if library.drilling:
        yield library.drilling.file, "drilling", library.drilling.form.steps
    for filed in library.recoveries.values():
        yield filed.file, "recovery", filed.form.steps


def _step(place: Place, kind: str, step: StepForm, library: Library) -> Problems:
    if (step.part == "recovery") != (kind == "recovery"):
        yield Problem(place, f"step {step.id!s} has part {step.part!s} in a {kind} sequence")
        return
    on_a_path = step.part not in ("clear", "recovery")
    if on_a_path != bool(step.at):
        needed = "at: [fresh]" if on_a_path else f"no at for part {step.part!s}"
        yield Problem(place, f"step {step.id!s}: at is {list(map(str, step.at))}", needed)
    names = MACHINE_NAMES if kind == "recovery" else tuple(NAMES)
    yield from condition_problems(place, step.when or {}, names, library)
    yield from condition_problems(place, step.unless or {}, names, library)


def condition_problems(
    place: Place, tests: Tests, names: tuple[str, ...], library: Library
) -> Problems:
    """Conditions that nobody knows, words that they do not have, and those with no word."""
    for name, words in tests.items():
        at = place_of(name, place)
        yield from known(at, "condition", name, names)
        if not words:
            yield Problem(at, f"condition {str(name)!r} has no word", "at least one")
        for word in words if name in names else ():
            allowed = NAMES[name] or _ids(name, library)
            yield from known(place_of(word, at), str(name), word, allowed)


def _ids(name: str, library: Library) -> tuple[str, ...]:
    if name == "machine":
        return tuple(library.machines)
    return tuple(library.materials if name == "material" else library.bits)


def stray_places(library: Library) -> Problems:
    """Shipped steps that say after which step they stand: their place is where they are written."""
    for file, _, steps in _sequences(library):
        for step in steps:
            if step.after is not None:
                found = f"step {step.id!s} has after"
                yield Problem(Place(file, step.line), found, "after only in a school's folder")
