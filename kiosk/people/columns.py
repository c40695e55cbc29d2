"""Which column of a roster is which: schools name them in many ways, and have many more."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kiosk.core.problems import Place, Problem, nearest
from kiosk.people.spreadsheet import Row

COLUMNS = ("group", "number", "level", "name")
NEEDED = COLUMNS[:3]
MAY_BE_LATE = 15  # rows with titles that may stand before the names of the columns

NAMES: Mapping[str, tuple[str, ...]] = {
    "group": (
        *("group", "class", "form", "set", "teaching group", "tutor group", "club", "group name"),
        *("reg", "reg group", "registration group", "teaching set", "class code", "class name"),
    ),
    "number": (
        *("number", "no", "no.", "nr", "nr.", "#", "list no", "list number", "list no.", "num"),
        *("register no", "register no.", "register number", "seat", "roll no", "roll no."),
    ),
    "level": ("level", "training level", "training", "drill level", "pillar drill", "drill"),
    "name": ("name", "pupil", "student", "full name", "pupil name", "student name"),
    "forename": ("forename", "first name", "given name", "preferred forename"),
    "surname": ("surname", "last name", "family name", "legal surname"),
    "beside": ("adult beside", "beside"),
    "visitor": ("visitor", "guest"),
    "same": ("same as", "is in", "also in"),
}
KNOWN: Mapping[str, str] = {word: column for column, words in NAMES.items() for word in words}


@dataclass(frozen=True)
class Head:
    """The row that names the columns: each cell's column, empty for one that is not read."""

    at: int
    columns: tuple[str, ...]

    def cells(self, row: Row) -> dict[str, str]:
        """The cells that are read of a row, by column."""
        cells = (*row.cells, *[""] * len(self.columns))
        return {name: cell for name, cell in zip(self.columns, cells, strict=False) if name}


def find_head(rows: Sequence[Row], group: str = "") -> Head | None:
    """The first row, or pair of rows, that names all columns that are needed.

    Where a title was merged over several cells the names stand in two rows: the lower one counts,
    the upper one where it is empty. With a `group` given no column for it is needed.
    """
    needed = {name for name in NEEDED if not (group and name == "group")}
    for at, row in enumerate(rows[:MAY_BE_LATE]):
        below = rows[at + 1] if at + 1 < len(rows) else Row(0)
        goes_on = _is_head_too(below)
        if needed <= set(one := _named(row.cells)) and not goes_on:
            return Head(at, one)
        if goes_on and needed <= set(two := _named(_over(row, below))):
            return Head(at + 1, two)
    return None


def columns_of(row: Row) -> tuple[str, ...]:
    """Which column each cell of a row names; empty for what names none."""
    return _named(row.cells)


def likeliest_head(rows: Sequence[Row]) -> Row:
    """Where none is whole: the row that names most of the columns, or the first one."""
    return max(rows[:MAY_BE_LATE], key=lambda row: len(set(_named(row.cells)) - {""}))


def _is_head_too(row: Row) -> bool:
    """Whether a row holds names of columns and nothing else."""
    cells = [cell for cell in row.cells if cell]
    return bool(cells) and all(_plain(cell) in KNOWN for cell in cells)


def _named(cells: Sequence[str]) -> tuple[str, ...]:
    return tuple(KNOWN.get(_plain(cell), "") for cell in cells)


def _plain(cell: str) -> str:
    return " ".join(cell.casefold().replace("_", " ").rstrip(":").split())


def _over(upper: Row, lower: Row) -> tuple[str, ...]:
    width = max(len(upper.cells), len(lower.cells))
    pairs = zip(_wide(upper, width), _wide(lower, width), strict=True)
    return tuple(low or up for up, low in pairs)


def _wide(row: Row, width: int) -> tuple[str, ...]:
    return (*row.cells, *[""] * (width - len(row.cells)))


def head_problems(file: str, head: Row, columns: Sequence[str]) -> tuple[Problem, ...]:
    """What is wrong with the row that should name the columns."""
    place = Place(file, head.line)
    names = tuple(cell.casefold() for cell in head.cells)
    found = [
        Problem(place, f"column {name!r} twice", "once")
        for name in (*COLUMNS, "beside", "visitor", "same")
        if columns.count(name) > 1
    ]
    missing = [name for name in NEEDED if name not in columns]
    unknown = [n for n in dict.fromkeys(names) if n and _plain(n) not in KNOWN]
    allowed = ", ".join(COLUMNS)
    for name in missing:
        near = next((n for n in unknown if nearest(n, (name,))), "")
        what = f"column {near!r}" if near else head.why or f"no column {name}"
        found.append(Problem(place, what, allowed, nearest(near, (name,)) if near else ""))
    return tuple(found)
