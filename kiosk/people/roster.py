"""The roster file: a school's groups and pupils by list number, as a spreadsheet saves them.

`group,number,level,name`, the name optional. A mistake is a `Problem` with file and line;
every good line is still read.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from kiosk.core.model import Group, Level, Pupil
from kiosk.core.problems import Place, Problem, nearest
from kiosk.people.spreadsheet import Row, decoded, rows

COLUMNS = ("group", "number", "level", "name")
NEEDED = COLUMNS[:3]
LEVELS = {level.value: level for level in Level}
HIGHEST_NUMBER = 999
LONGEST_NAME = 60


@dataclass(frozen=True)
class RosterPupil:
    """A pupil as the file has them."""

    number: int
    level: Level
    name: str = ""


@dataclass(frozen=True)
class RosterGroup:
    """A group as the file has it; `id` is its name in small letters joined by hyphens."""

    id: str
    name: str
    pupils: tuple[RosterPupil, ...]


def with_refs(group: RosterGroup, refs: Mapping[int, str]) -> Group:
    """The group as the kiosk uses it, with the record's reference for each number."""
    pupils = (Pupil(refs[p.number], p.number, p.level, p.name) for p in group.pupils)
    return Group(group.id, group.name, tuple(pupils))


def read_roster(path: Path) -> tuple[tuple[RosterGroup, ...], tuple[Problem, ...]]:
    """The groups of a roster file in the order they first come, and every mistake in it.

    Spaces and capitals don't matter; lines that are empty or begin with # are passed over.
    """
    file = str(path)
    try:
        found = tuple(rows(decoded(path.read_bytes())))
    except OSError as error:
        return (), (Problem(Place(file), error.strerror or str(error), "a CSV file"),)
    except UnicodeError:
        return (), (Problem(Place(file), "letters that can't be read", "a CSV file in UTF-8"),)
    if not found:
        return (), (Problem(Place(file), "an empty file", "a first line " + ",".join(COLUMNS)),)
    return _read(file, found[0], found[1:])


def _read(
    file: str, head: Row, body: tuple[Row, ...]
) -> tuple[tuple[RosterGroup, ...], tuple[Problem, ...]]:
    columns, problems = _columns(file, head)
    if problems:
        return (), problems
    read = [_line(file, row, columns) for row in body]
    lines = [one for one in read if isinstance(one, _Line)]
    mistakes = [p for one in read if not isinstance(one, _Line) for p in one]
    kept, doubles = _once_each(file, lines)
    return _grouped(kept), tuple(sorted((*mistakes, *doubles)))


@dataclass(frozen=True)
class _Line:
    line: int
    group: str
    pupil: RosterPupil

    @property
    def id(self) -> str:
        return "-".join(re.findall(r"\w+", self.group.casefold()))


def _columns(file: str, head: Row) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """The column names of the first line, and what is wrong with them."""
    place = Place(file, head.line)
    names = tuple(cell.casefold() for cell in head.cells)
    unknown = [n for n in dict.fromkeys(names) if n and n not in COLUMNS]
    found = [Problem(place, f"column {n!r}", _list(COLUMNS), nearest(n, COLUMNS)) for n in unknown]
    found += [Problem(place, f"column {n!r} twice", "once") for n in COLUMNS if names.count(n) > 1]
    missing = [n for n in NEEDED if n not in names]
    if missing and len(unknown) < len(missing):
        found.append(Problem(place, head.why or f"no column {_list(missing)}", _list(COLUMNS)))
    return names, tuple(found)


def _line(file: str, row: Row, columns: tuple[str, ...]) -> _Line | list[Problem]:
    place = Place(file, row.line)
    if row.why:
        return [Problem(place, row.why, "a quote before and after a cell")]
    if any(row.cells[len(columns) :]):
        found = f"{len(row.cells)} cells"
        return [Problem(place, found, str(len(columns)), "put a cell with a comma in quotes")]
    cells = dict(zip(columns, (*row.cells, *[""] * len(columns)), strict=False))
    group, name = cells["group"], cells.get("name", "")
    number, level = _number(cells["number"]), _level(cells["level"])
    if number and level and _is_name(group, 1) and _is_name(name, 0):
        return _Line(row.line, group, RosterPupil(number, level, name))
    return _mistakes(place, cells)


def _mistakes(place: Place, cells: Mapping[str, str]) -> list[Problem]:
    """What is wrong with the cells of one line, each by itself."""
    group, number, level, name = (cells.get(column, "") for column in COLUMNS)
    found = []
    if not _is_name(group, 1):
        found.append(Problem(place, f"group {group!r}", f"1 to {LONGEST_NAME} letters"))
    if not _number(number):
        allowed = f"a whole number from 1 to {HIGHEST_NUMBER}"
        found.append(Problem(place, f"number {number!r}", allowed))
    if not _level(level):
        advice = nearest(_plain(level), LEVELS)
        found.append(Problem(place, f"level {level!r}", _list(LEVELS), advice))
    if not _is_name(name, 0):
        found.append(Problem(place, f"name {name!r}", f"at most {LONGEST_NAME} letters"))
    return found


def _once_each(file: str, lines: Iterable[_Line]) -> tuple[list[_Line], list[Problem]]:
    """The first line of each number in a group, and a problem for each further one."""
    first: dict[tuple[str, int], _Line] = {}
    doubles = []
    for line in lines:
        earlier = first.setdefault((line.id, line.pupil.number), line)
        if earlier is not line:
            found = f"number {line.pupil.number} twice in {line.group!r}, first in line"
            place = Place(file, line.line)
            doubles.append(Problem(place, f"{found} {earlier.line}", "each number once in a group"))
    return list(first.values()), doubles


def _grouped(lines: Iterable[_Line]) -> tuple[RosterGroup, ...]:
    groups: dict[str, list[_Line]] = {}
    for line in lines:
        groups.setdefault(line.id, []).append(line)
    return tuple(
        RosterGroup(id, of[0].group, tuple(sorted((one.pupil for one in of), key=_by_number)))
        for id, of in groups.items()
    )


def _by_number(pupil: RosterPupil) -> int:
    return pupil.number


def _number(cell: str) -> int | None:
    if not (cell.isascii() and cell.isdigit() and len(cell) <= 6):
        return None
    return int(cell) if 1 <= int(cell) <= HIGHEST_NUMBER else None


def _level(cell: str) -> Level | None:
    return LEVELS.get(_plain(cell))


def _plain(cell: str) -> str:
    return " ".join(cell.casefold().replace("-", " ").replace("_", " ").split())


def _is_name(cell: str, shortest: int) -> bool:
    has_letters = shortest == 0 or any(c.isalnum() for c in cell)
    return has_letters and shortest <= len(cell) <= LONGEST_NAME and cell.isprintable()


def _list(words: Iterable[str]) -> str:
    return ", ".join(words)
