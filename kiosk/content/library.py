"""A folder of YAML files, read into forms with their places.

`load` reads the shipped folder and a school's own, lays one over the other (`merging`) and makes
values of the outcome.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Generic, TypeVar

from kiosk.content.forms import (
    AssessmentForm,
    BitForm,
    ChecksForm,
    DrillingForm,
    JobForm,
    MachineForm,
    MaterialForm,
    RecoveryForm,
    WordForm,
)
from kiosk.content.people_forms import PeopleForm, QuestionForm
from kiosk.content.quiet_forms import QuietForm
from kiosk.content.structure import structure
from kiosk.content.values import Phrase
from kiosk.content.written import read_page
from kiosk.core.problems import Place, Problem, nearest

Form = TypeVar("Form")
FOLDERS = ("machines", "jobs", "recovery", "languages")
FILES = (
    "materials.yaml",
    "bits.yaml",
    "drilling.yaml",
    "assessment.yaml",
    "checks.yaml",
    "retention.yaml",
    "people.yaml",
    "questions.yaml",
    "silent_hours.yaml",
)


@dataclass(frozen=True)
class Filed(Generic[Form]):
    """A form and the name of the file it stands in."""

    file: str
    form: Form


@dataclass
class Library:
    """All forms by id, and the problems met while reading."""

    machines: dict[str, Filed[MachineForm]] = field(default_factory=dict)
    materials: dict[str, Filed[MaterialForm]] = field(default_factory=dict)
    bits: dict[str, Filed[BitForm]] = field(default_factory=dict)
    jobs: dict[str, Filed[JobForm]] = field(default_factory=dict)
    recoveries: dict[str, Filed[RecoveryForm]] = field(default_factory=dict)
    drilling: Filed[DrillingForm] | None = None
    assessment: Filed[AssessmentForm] | None = None
    checks: Filed[ChecksForm] | None = None
    people: Filed[PeopleForm] | None = None
    quiet: Filed[QuietForm] | None = None
    questions: dict[str, Filed[QuestionForm]] = field(default_factory=dict)
    glossary: dict[str, Filed[WordForm]] = field(default_factory=dict)
    languages: dict[str, dict[str, str]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def read_library(folder: Path) -> Library:
    """All forms of one folder; what it does not have is left empty."""
    library = Library()
    _many(library, folder, "machines", MachineForm, library.machines)
    _entries(library, folder / "materials.yaml", MaterialForm, library.materials)
    _entries(library, folder / "bits.yaml", BitForm, library.bits)
    _many(library, folder, "jobs", JobForm, library.jobs)
    _many(library, folder, "recovery", RecoveryForm, library.recoveries)
    library.drilling = _one(library, folder / "drilling.yaml", DrillingForm)
    library.assessment = _one(library, folder / "assessment.yaml", AssessmentForm)
    library.checks = _one(library, folder / "checks.yaml", ChecksForm)
    library.people = _one(library, folder / "people.yaml", PeopleForm)
    library.quiet = _one(library, folder / "silent_hours.yaml", QuietForm)
    _entries(library, folder / "questions.yaml", QuestionForm, library.questions)
    _entries(library, folder / "languages" / "glossary.yaml", WordForm, library.glossary)
    for path in sorted((folder / "languages").glob("*.yaml")):
        if path.stem != "glossary" and (words := _one(library, path, dict[str, Phrase])):
            library.languages[path.stem] = dict(words.form)
    return library


def missing(library: Library, base: Path) -> None:
    """Note what no content can do without."""
    for name, found in (("drilling", library.drilling), ("assessment", library.assessment)):
        file = f"{name}.yaml"
        if found is None and not any(p.place.file.endswith(file) for p in library.problems):
            place = Place(f"{base.name}/{file}")
            library.problems.append(Problem(place, "no such file", advice="put it back"))


def strange_files(school: Path) -> list[Problem]:
    """Files of a school's folder that nothing reads: a misspelt name would change nothing."""
    if not school.is_dir():
        return [Problem(Place(str(school)), "no such folder", advice="give the school's folder")]
    found = [path for path in sorted(school.rglob("*.y*ml")) if not _is_read(school, path)]
    names = (*FILES, *(f"{folder}/NAME.yaml" for folder in FOLDERS))
    return [_strange(school, path, names) for path in found]


def _is_read(school: Path, path: Path) -> bool:
    parts = path.relative_to(school).parts
    in_folder = len(parts) == 2 and parts[0] in FOLDERS and path.suffix == ".yaml"
    return in_folder or parts in {(name,) for name in FILES}


def _strange(school: Path, path: Path, names: tuple[str, ...]) -> Problem:
    name = path.relative_to(school).as_posix()
    place = Place(f"{school.name}/{name}")
    return Problem(place, "nothing reads this file", ", ".join(names), nearest(name, names))


def _many(
    library: Library, folder: Path, name: str, kind: type[Form], shelf: dict[str, Filed[Form]]
) -> None:
    for path in sorted((folder / name).glob("*.yaml")):
        if filed := _one(library, path, kind):
            shelf[path.stem] = filed


def _entries(library: Library, path: Path, kind: type[Form], shelf: dict[str, Filed[Form]]) -> None:
    filed = _one(library, path, dict[str, kind])  # type: ignore[valid-type]
    if filed is not None:
        shelf |= {str(id): Filed(filed.file, form) for id, form in filed.form.items()}


def _one(library: Library, path: Path, kind: Any) -> Filed[Any] | None:
    if not path.is_file():
        return None
    name = _name_of(path)
    form, problems = structure(read_page(path, name), kind)
    library.problems += problems
    return None if form is None else Filed(name, form)


def _name_of(path: Path) -> str:
    """The path as a technician knows it: from the folder of sequences on."""
    parts = path.parts[-3:] if path.parent.name in FOLDERS else path.parts[-2:]
    return "/".join(parts)
