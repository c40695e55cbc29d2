"""Training levels from one drill to another that is alike: a small table by group and list number.

It has no names and no references: those are the record's own, and another kiosk has others. It
leaves a kiosk only by the command that asks for it.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from io import StringIO
from typing import Any

from kiosk.core.inputs import Input, LevelsShared
from kiosk.core.kiosk import Kiosk, from_outside
from kiosk.core.kiosk.pupils import Grant
from kiosk.core.model import Group, Level
from kiosk.core.model.hazards import EPOCH
from kiosk.core.problems import Place, Problem, nearest
from kiosk.core.units import day_named
from kiosk.people.commands import BY
from kiosk.people.roster import group_id
from kiosk.people.spreadsheet import Row, decoded, rows

HEAD = ("group", "number", "alike", "bits", "level", "granted", "ends", "used")
WORDS = {level.value: level for level in Level}

Shared = tuple[str, str, str, str, int, int, int]
"""A level as `LevelsShared` has it."""


@dataclass(frozen=True)
class LevelRow:
    """One line of the table: whose level, for which drills and bits, and its days."""

    line: int
    group: str
    number: int
    level: Level
    alike: str
    bits: str
    since: int
    until: int
    used: int

    @property
    def place(self) -> str:
        """Whose it is, as the office says it."""
        return f"{self.group} {self.number}"


def levels_table(groups: Sequence[Group], grants: Sequence[Grant], alike: str) -> str:
    """The table of all levels that were granted at drills called `alike`."""
    out = StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(HEAD)
    for group in groups:
        for pupil in group.pupils:
            mine = (g for g in grants if g.pupil == pupil.ref and g.alike == alike)
            table.writerows((group.name, pupil.number, *_cells(grant)) for grant in mine)
    return out.getvalue()


def _cells(grant: Grant) -> tuple[str, ...]:
    days = (day_named(grant.since), day_named(grant.until) if grant.until else "")
    return (grant.alike, grant.bits, grant.level.value, *days, day_named(grant.used))


def read_levels(file: str, raw: bytes) -> tuple[tuple[LevelRow, ...], tuple[Problem, ...]]:
    """The lines of a table, and every mistake in it with its line."""
    try:
        found = tuple(rows(decoded(raw)))
    except UnicodeError:
        return (), (Problem(Place(file), "letters that can't be read", "a table of levels"),)
    if not found or tuple(cell.casefold() for cell in found[0].cells) != HEAD:
        line = found[0].line if found else 0
        return (), (Problem(Place(file, line), "no table of levels", ",".join(HEAD)),)
    read = [_read(Place(file, row.line), row) for row in found[1:]]
    lines = tuple(one for one in read if isinstance(one, LevelRow))
    return lines, tuple(p for one in read if not isinstance(one, LevelRow) for p in one)


def _read(place: Place, row: Row) -> LevelRow | list[Problem]:
    if row.why or len(row.cells) != len(HEAD):
        return [Problem(place, row.why or f"{len(row.cells)} cells", str(len(HEAD)))]
    cells = dict(zip(HEAD, row.cells, strict=True))
    mistakes = list(_mistakes(place, cells))
    if mistakes:
        return mistakes
    days = (_day(cells[name]) or 0 for name in ("granted", "ends", "used"))
    whose = (row.line, cells["group"], int(cells["number"]), WORDS[cells["level"]])
    return LevelRow(*whose, cells["alike"], cells["bits"], *days)


def _mistakes(place: Place, cells: dict[str, str]) -> Iterator[Problem]:
    if not (cells["number"].isascii() and cells["number"].isdigit()):
        yield Problem(place, f"number {cells['number']!r}", "a whole number")
    if cells["level"] not in WORDS:
        advice = nearest(cells["level"], WORDS)
        yield Problem(place, f"level {cells['level']!r}", ", ".join(WORDS), advice)
    for name in ("group", "alike", "bits"):
        if not cells[name]:
            yield Problem(place, f"no {name}", f"a {name}")
    for name in ("granted", "ends", "used"):
        if _day(cells[name]) is None and (cells[name] or name != "ends"):
            yield Problem(place, f"{name} {cells[name]!r}", "a date such as 2027-09-01")


def _day(cell: str) -> int | None:
    try:
        return (date.fromisoformat(cell) - EPOCH).days
    except ValueError:
        return None


def about_levels(
    groups: Sequence[Group], kiosk: Kiosk, request: dict[str, Any]
) -> tuple[Input | None, dict[str, Any]]:
    """What a command about levels leads to, and its answer: of the running kiosk or of a record."""
    match request:
        case {"do": "levels_out", "alike": str(alike)}:
            return None, {"ok": True, "table": levels_table(groups, kiosk.pupils.grants, alike)}
        case {"do": "levels_in", "levels": list(levels), "accept": bool(accept)}:
            given = LevelsShared(BY, tuple(tuple(level) for level in levels))
            newer = len(from_outside(kiosk, given).events)
            return given if accept else None, {"ok": True, "newer": newer}
    return None, {"ok": False, "why": "unknown command about levels"}


def levels_here(
    groups: Sequence[Group], lines: Sequence[LevelRow]
) -> tuple[tuple[Shared, ...], tuple[LevelRow, ...]]:
    """The levels by the references of this kiosk, and the lines of whom it does not know."""
    refs = {(g.id, p.number): p.ref for g in groups for p in g.pupils if not p.visitor}
    known = {line: refs.get((group_id(line.group), line.number), "") for line in lines}
    shared = tuple(
        (ref, line.level.word, line.alike, line.bits, line.since, line.until, line.used)
        for line, ref in known.items()
        if ref
    )
    return shared, tuple(line for line, ref in known.items() if not ref)
