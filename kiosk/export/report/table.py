"""A report's tables: the same for the page, the workbook and the charts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

Cell = str | int | None
"""A text, a count, or nothing where it is not known; the table's note says why."""

Row = tuple[Cell, ...]

NOT_KNOWN = "–"


@dataclass(frozen=True)
class Table:
    """Rows under heads; the first cell of a row names it.

    `chart` is the column that is drawn as bars, 0 for none. `note` says how it is to be read.
    `alert` marks what asks to be followed up. `id` is its anchor on the page.
    """

    id: str
    title: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    chart: int = 0
    note: str = ""
    alert: bool = False

    @property
    def counts(self) -> tuple[bool, ...]:
        """Of each column, whether it holds no text."""
        columns = range(len(self.heads))
        return tuple(not any(isinstance(row[at], str) for row in self.rows) for at in columns)

    @property
    def bars(self) -> tuple[tuple[str, int], ...]:
        """What the chart draws: rows with a count in its column."""
        found = ((row[0], row[self.chart]) for row in self.rows)
        return tuple((str(name), n) for name, n in found if isinstance(n, int))


@dataclass(frozen=True)
class Chapter:
    """Some tables under one heading."""

    title: str
    tables: tuple[Table, ...]


def chapter(title: str, tables: Sequence[Table]) -> Chapter:
    """A chapter of those tables that have something to tell."""
    return Chapter(title, tuple(table for table in tables if table.rows))


def shown(cell: Cell) -> str:
    """A cell as text."""
    return NOT_KNOWN if cell is None else str(cell)
