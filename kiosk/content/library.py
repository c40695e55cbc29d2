"""A folder of YAML files, read into forms with their places; a school's folder over the base.

Files of a school replace those of the same name; in `materials.yaml` and `bits.yaml` it replaces
single entries. `load` calls `read_library` first and makes values of what it returns.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Generic, TypeVar

from kiosk.content.forms import (
    AssessmentForm,
    BitForm,
    DrillingForm,
    JobForm,
    MachineForm,
    MaterialForm,
    RecoveryForm,
)
from kiosk.content.structure import structure
from kiosk.content.values import Phrase
from kiosk.content.written import read_page
from kiosk.core.problems import Place, Problem

Form = TypeVar("Form")


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
    language: dict[str, str] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def read_library(base: Path, school: Path | None, language: str) -> Library:
    """All forms of the base folder, with the school's in their place."""
    library = Library()
    for folder in (base, school) if school else (base,):
        _read_folder(library, folder, language)
    if library.drilling is None:
        _missing(library, base, "drilling.yaml")
    if library.assessment is None:
        _missing(library, base, "assessment.yaml")
    return library


def _missing(library: Library, base: Path, name: str) -> None:
    if not any(p.place.file.endswith(name) for p in library.problems):
        place = Place(f"{base.name}/{name}")
        library.problems.append(Problem(place, "no such file", advice="put it back"))


def _read_folder(library: Library, folder: Path, language: str) -> None:
    _many(library, folder, "machines", MachineForm, library.machines)
    _entries(library, folder / "materials.yaml", MaterialForm, library.materials)
    _entries(library, folder / "bits.yaml", BitForm, library.bits)
    _many(library, folder, "jobs", JobForm, library.jobs)
    _many(library, folder, "recovery", RecoveryForm, library.recoveries)
    library.drilling = _one(library, folder / "drilling.yaml", DrillingForm) or library.drilling
    found = _one(library, folder / "assessment.yaml", AssessmentForm)
    library.assessment = found or library.assessment
    words = _one(library, folder / "languages" / f"{language}.yaml", dict[str, Phrase])
    if words is not None:
        library.language |= {str(k): str(v) for k, v in words.form.items()}


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


FOLDERS = ("machines", "jobs", "recovery", "languages")
