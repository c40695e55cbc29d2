"""What a package would bring in: copied from the stick, checked whole, told line by line.

Nothing is changed by looking. The same for the screen, through a child of the kiosk, and for the
command.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kiosk.content.starting import load_for
from kiosk.core.model import Adult, Group, Pupil
from kiosk.core.problems import Problem
from kiosk.core.units import day_named, day_of
from kiosk.export import Brought, Package, bring
from kiosk.export.package import REVOKED, ROSTERS
from kiosk.people import (
    RosterGroup,
    group_as_plain,
    known_of,
    revoked_of,
    roster_of,
    unresolved,
    without_names,
)
from kiosk.store import ReadOnlyRecord, Taken, copies, school_of

Line = tuple[str, str]
"""A short word for what a line says, and what it says it of."""


@dataclass(frozen=True)
class Asked:
    """Whose package it is to be: the record, what the kiosk is started with, and the stick."""

    record: Path
    stick: Path
    is_stick: bool
    sequences: Path
    school: Path | None = None
    machine: str = ""
    language: str = "en"


@dataclass(frozen=True)
class Look:
    """What was found. With `problems` it is refused whole; `request` is what takes it in."""

    made_us: int
    lines: tuple[Line, ...]
    problems: tuple[Problem, ...]
    request: dict[str, Any]
    before: tuple[Group, ...] = ()
    after: tuple[Group, ...] = ()


@dataclass(frozen=True)
class _Now:
    """What stands at the kiosk before."""

    groups: tuple[Group, ...]
    adults: tuple[Adult, ...]
    taken: tuple[Taken, ...]
    machine: str
    school: Path | None

    @classmethod
    def of(cls, asked: Asked) -> _Now:
        """Read beside the running kiosk."""
        with ReadOnlyRecord(asked.record) as opened:
            taken = opened.taken_in()
            school = school_of(asked.record, taken) or asked.school
            machine = asked.machine or opened.machine()
            return cls(opened.groups(), opened.adults(), taken, machine, school)


def look(asked: Asked) -> Look:
    """Look at the stick's newest package; raises PackageFault, RecordFault, OSError."""
    now = _Now.of(asked)
    brought = bring(asked.stick, copies(asked.record), asked.is_stick)
    found = load_for(now.machine, asked.sequences, brought.school or now.school, asked.language)
    groups, wrong_roster = roster_in(brought.lists)
    revoked, wrong_names = revoked_in(brought.lists)
    names = found.content is not None and found.content.people.names
    groups = groups if names else without_names(groups)
    after = unresolved(groups) if brought.package.roster else now.groups
    lines = tuple(_lines(now, brought, after, revoked))
    problems = (*wrong_roster, *wrong_names, *found.problems)
    request = _request(brought.package, groups, names, revoked)
    return Look(brought.package.made_us, lines, problems, request, now.groups, after)


def _request(
    package: Package, groups: Iterable[RosterGroup], names: bool, revoked: Iterable[str]
) -> dict[str, Any]:
    """What a running kiosk is asked, or a closed record does."""
    return {
        "do": "take_in",
        "package": package.digest,
        "made_us": package.made_us,
        "parts": list(package.parts),
        "groups": [group_as_plain(group) for group in groups],
        "names": names,
        "revoked": list(revoked),
    }


def roster_in(
    lists: Mapping[str, bytes],
) -> tuple[tuple[RosterGroup, ...], tuple[Problem, ...]]:
    """The groups of a package's roster, and every mistake in it; nothing where it has none."""
    found = next((name for name in ROSTERS if name in lists), "")
    return roster_of(found, lists[found]) if found else ((), ())


def revoked_in(lists: Mapping[str, bytes]) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """The names of a package's revoked adults; nothing where it has none."""
    return revoked_of(REVOKED, lists[REVOKED]) if REVOKED in lists else ((), ())


# --- the lines -----------------------------------------------------------------------------------


def _lines(
    now: _Now, brought: Brought, after: Sequence[Group], revoked: Sequence[str]
) -> Iterator[Line]:
    yield from _dates(brought.package, now.taken)
    if brought.package.roster:
        yield from _people(now.groups, after)
    yield from _adults(now.adults, revoked)
    if brought.school:
        yield from _files(now.school, brought.school)


def _dates(package: Package, taken: Sequence[Taken]) -> Iterator[Line]:
    """What a part would stand in place of, with its date; a warning where that is newer."""
    here = [one.made_us for one in taken if one.part in package.parts]
    if here:
        key = "older" if max(here) > package.made_us else "before"
        yield key, day_named(day_of(max(here)))


def _people(before: Sequence[Group], after: Sequence[Group]) -> Iterator[Line]:
    """Who comes at which level, who changes, who leaves: by group and numbers."""
    sorts: dict[Line, list[int]] = {}
    for key, group, number in _changes(_places(before), _places(after)):
        sorts.setdefault((key, group), []).append(number)
    yield from ((key, f"{name} {stretches(found)}") for (key, name), found in sorts.items())
    if not sorts:
        yield "same_roster", ""


def _places(groups: Iterable[Group]) -> dict[tuple[str, int], Pupil]:
    return {(g.name, p.number): p for g in groups for p in g.pupils}


def _changes(
    old: Mapping[tuple[str, int], Pupil], new: Mapping[tuple[str, int], Pupil]
) -> Iterator[tuple[str, str, int]]:
    for (group, number), pupil in new.items():
        was = old.get((group, number))
        if was is None:
            yield f"come.{pupil.level.word}", group, number
        elif (was.level, was.beside, was.visitor) != (pupil.level, pupil.beside, pupil.visitor):
            yield "change", group, number
    yield from (("leave", group, number) for group, number in old if (group, number) not in new)


def stretches(numbers: Iterable[int]) -> str:
    """Numbers in order, those that follow each other as a stretch: `1 - 3, 7`."""
    found: list[list[int]] = []
    for number in sorted(numbers):
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return ", ".join(str(s[0]) if len(s) == 1 else f"{s[0]} - {s[-1]}" for s in found)


def _adults(known: Iterable[Adult], revoked: Sequence[str]) -> Iterator[Line]:
    here = tuple(known)
    for name in revoked:
        found = known_of(here, (name,))
        yield ("revoked", found[0].name) if found else ("stranger", name)


def _files(before: Path | None, after: Path) -> Iterator[Line]:
    """Which files of the school's folder are new, changed, or there no longer."""
    old, new = _bytes_of(before), _bytes_of(after)
    yield from (("new", name) for name in sorted(new.keys() - old.keys()))
    both = sorted(new.keys() & old.keys())
    yield from (("changed", name) for name in both if old[name] != new[name])
    yield from (("away", name) for name in sorted(old.keys() - new.keys()))
    if old == new:
        yield "same_school", ""


def _bytes_of(folder: Path | None) -> dict[str, bytes]:
    if folder is None:
        return {}
    files = (path for path in folder.rglob("*.yaml") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}
