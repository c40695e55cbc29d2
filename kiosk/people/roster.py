"""The roster file: a school's groups and pupils by list number, as an office saves them.

A workbook, or text with commas, semicolons or tabs; `group,number,level` and more columns as the
school has them. A mistake is a `Problem` with file and line; every good line is still read.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from kiosk.core.model import Group, Level, Pupil
from kiosk.core.problems import Place, Problem, nearest
from kiosk.people.columns import COLUMNS, Head, columns_of, find_head, head_problems, likeliest_head
from kiosk.people.spreadsheet import A_DATE, NoWorkbook, Row, decoded, is_workbook, rows, sheets

LEVELS = {level.value: level for level in Level}
HIGHEST_NUMBER = 999
LONGEST_NAME = 60
YES = ("yes", "y", "x", "1", "true", "\u2713", "\u2714")
NO = ("", "no", "n", "0", "false", "-")

Read = tuple[tuple["RosterGroup", ...], tuple[Problem, ...]]


@dataclass(frozen=True)
class RosterPupil:
    """A pupil as the file has them. `same` names the group and number of the same pupil there."""

    number: int
    level: Level
    name: str = ""
    beside: bool = False
    visitor: bool = False
    same: tuple[str, int] | None = None


@dataclass(frozen=True)
class RosterGroup:
    """A group as the file has it; `id` is its name in small letters joined by hyphens."""

    id: str
    name: str
    pupils: tuple[RosterPupil, ...]


def with_refs(
    group: RosterGroup,
    refs: Mapping[int, str],
    elsewhere: Mapping[tuple[str, int], str] | None = None,
) -> Group:
    """The group as the kiosk uses it, with the record's reference for each number.

    Who is the same pupil as in another group has the reference from there.
    """
    known = elsewhere or {}
    pupils = (
        Pupil(
            known[p.same] if p.same in known else refs[p.number],
            p.number,
            p.level,
            p.name,
            p.beside,
            p.visitor,
        )
        for p in group.pupils
    )
    return Group(group.id, group.name, tuple(pupils))


def read_roster(path: Path) -> Read:
    """The groups of a roster file in the order they first come, and every mistake in it.

    Spaces and capitals don't matter; lines that are empty or begin with # are passed over, and
    so are titles before the names of the columns, and columns that nothing here needs.
    """
    try:
        return roster_of(str(path), path.read_bytes())
    except OSError as error:
        return (), (
            Problem(Place(str(path)), error.strerror or str(error), "a workbook or CSV file"),
        )


def roster_of(file: str, raw: bytes) -> Read:
    """The same of a file's bytes; `file` is what mistakes call it."""
    try:
        tables = tuple(sheets(raw)) if is_workbook(raw) else (("", tuple(rows(decoded(raw)))),)
    except UnicodeError:
        return (), (Problem(Place(file), "letters that can't be read", "a CSV file in UTF-8"),)
    except NoWorkbook:
        allowed = "a workbook that opens, or a CSV file"
        return (), (Problem(Place(file), "a workbook that can't be opened", allowed),)
    tables = tuple((name, found) for name, found in tables if found)
    if not tables:
        return (), (Problem(Place(file), "an empty file", "a first line " + ",".join(COLUMNS)),)
    return _read_all(file, tables)


def _read_all(file: str, tables: Sequence[tuple[str, tuple[Row, ...]]]) -> Read:
    """All sheets; one that has no roster on it counts only if none has."""
    many, problems, lines = len(tables) > 1, [], list[_Line]()
    heads = [find_head(found, name) for name, found in tables]
    for (name, found), head in zip(tables, heads, strict=True):
        where = f"{file} [{name}]" if many else file
        if head is not None:
            got, wrong = _read(where, name, found, head)
            lines += got
            problems += wrong
        elif not any(heads):
            row = likeliest_head(found)
            problems += head_problems(where, row, columns_of(row))
    kept, doubles = _once_each(file, lines)
    problems += [*doubles, *_same_problems(file, kept)]
    return _grouped(kept), tuple(sorted(problems))


def _read(
    file: str, sheet: str, found: tuple[Row, ...], head: Head
) -> tuple[list[_Line], list[Problem]]:
    has_group = "group" in head.columns or not sheet
    columns = head.columns if has_group else (*head.columns, "group")
    problems = list(head_problems(file, found[head.at], columns))
    if problems:
        return [], problems
    read = [_line(file, sheet, row, head) for row in found[head.at + 1 :]]
    lines = [one for one in read if isinstance(one, _Line)]
    return lines, [p for one in read if not isinstance(one, _Line) for p in one]


@dataclass(frozen=True)
class _Line:
    line: int
    group: str
    pupil: RosterPupil

    @property
    def id(self) -> str:
        return group_id(self.group)


def group_id(name: str) -> str:
    """A group's name in small letters joined by hyphens."""
    return "-".join(re.findall(r"\w+", name.casefold()))


def _line(file: str, sheet: str, row: Row, head: Head) -> _Line | list[Problem]:
    place = Place(file, row.line)
    if row.why:
        return [Problem(place, row.why, "a quote before and after a cell")]
    if any(row.cells[len(head.columns) :]):
        found = f"{len(row.cells)} cells"
        return [Problem(place, found, str(len(head.columns)), "put a cell with a comma in quotes")]
    cells = head.cells(row)
    cells.setdefault("group", sheet)
    cells["name"] = cells.get("name") or _whole_name(cells)
    mistakes = _mistakes(place, cells)
    return mistakes or _Line(row.line, cells["group"], _pupil(cells))


def _whole_name(cells: Mapping[str, str]) -> str:
    return " ".join(part for part in (cells.get("forename"), cells.get("surname")) if part)


def _pupil(cells: Mapping[str, str]) -> RosterPupil:
    number, level = _number(cells["number"]), _level(cells["level"])
    assert number is not None
    beside, visitor = (_plain(cells.get(c, "")) in YES for c in ("beside", "visitor"))
    lowest = Level.ADULT_BESIDE
    same = _same(cells.get("same", ""))
    return RosterPupil(number, level or lowest, cells["name"], beside, visitor, same)


def _mistakes(place: Place, cells: Mapping[str, str]) -> list[Problem]:
    """What is wrong with the cells of one line, each by itself."""
    group, number, level, name = (cells.get(column, "") for column in COLUMNS)
    found = []
    if not _is_name(group, 1):
        found.append(Problem(place, f"group {group!r}", f"1 to {LONGEST_NAME} letters"))
    if not _number(number):
        allowed = f"a whole number from 1 to {HIGHEST_NUMBER}"
        found.append(Problem(place, f"number {number!r}", allowed))
    if not _level(level) and (level or not _needs_no_level(cells)):
        advice = nearest(_plain(level), LEVELS)
        found.append(Problem(place, f"level {level!r}", _list(LEVELS), advice))
    if not _is_name(name, 0):
        found.append(Problem(place, f"name {name!r}", f"at most {LONGEST_NAME} letters"))
    return found + _more_mistakes(place, cells)


def _needs_no_level(cells: Mapping[str, str]) -> bool:
    """A visitor has none, and who is listed elsewhere has it from there."""
    return _plain(cells.get("visitor", "")) in YES or bool(cells.get("same"))


def _more_mistakes(place: Place, cells: Mapping[str, str]) -> list[Problem]:
    """Of columns that few rosters have. What a cell says is not repeated: it may be a reason."""
    found = [
        Problem(place, f"{word} is neither yes nor no", "yes, no", "give no reason")
        for word, column in (("adult beside", "beside"), ("visitor", "visitor"))
        if _plain(cells.get(column, "")) not in (*YES, *NO)
    ]
    same = cells.get("same", "")
    if same and _same(same) is None:
        found.append(Problem(place, f"same as {same!r}", "a group and a number, such as 8B 14"))
    return found


def _same(cell: str) -> tuple[str, int] | None:
    group, _, number = cell.rpartition(" ")
    count = _number(number)
    return (group_id(group), count) if group_id(group) and count else None


def _same_problems(file: str, lines: Sequence[_Line]) -> list[Problem]:
    """Who is said to be the same pupil as somebody whom the file does not have."""
    home = {(line.id, line.pupil.number) for line in lines if line.pupil.same is None}
    return [
        Problem(
            Place(file, line.line),
            f"same as {line.pupil.same[0]} {line.pupil.same[1]}",
            "a pupil of this file",
            "list that group too",
        )
        for line in lines
        if line.pupil.same is not None and line.pupil.same not in home
    ]


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
    cell = cell.removesuffix(".0")  # as a spreadsheet may save a whole number
    if not (cell.isascii() and cell.isdigit() and len(cell) <= 6):
        return None
    return int(cell) if 1 <= int(cell) <= HIGHEST_NUMBER else None


def _level(cell: str) -> Level | None:
    return LEVELS.get(_plain(cell))


def _plain(cell: str) -> str:
    return " ".join(cell.casefold().replace("-", " ").replace("_", " ").split())


def _is_name(cell: str, shortest: int) -> bool:
    has_letters = shortest == 0 or any(c.isalnum() for c in cell)
    if cell == A_DATE:
        return False
    return has_letters and shortest <= len(cell) <= LONGEST_NAME and cell.isprintable()


def _list(words: Iterable[str]) -> str:
    return ", ".join(words)
