"""The report as a workbook: a sheet of remarks, and a sheet with its chart for each table.

Texts are written as texts, never as formulas or links.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, BinaryIO

import xlsxwriter

from kiosk.export.report.remarks import RULES
from kiosk.export.report.story import Story
from kiosk.export.report.table import Table, shown

LONGEST_NAME = 31  # of a sheet, ECMA-376
WIDE, NARROW = 46, 16
CHART_COLOUR = "#0F5C63"


def write_report(file: BinaryIO, story: Story) -> None:
    """Write the whole workbook."""
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    add_report(book, story)
    book.close()


def add_report(book: Any, story: Story) -> None:
    """Add the report's sheets to a workbook."""
    bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
    _remarks(book, story, bold)
    for table in story.tables:
        _table(book, table, bold)


def _remarks(book: Any, story: Story, bold: Any) -> None:
    sheet = book.add_worksheet("Remarks")
    wrap = book.add_format({"text_wrap": True, "valign": "top"})
    sheet.set_column(0, 0, 100)
    sheet.set_column(1, 1, WIDE)
    put(sheet, 0, ("remark", "figures in the sheet"), bold)
    titles = {table.id: name_of(table) for table in story.tables}
    for at, remark in enumerate(story.remarks, 1):
        put(sheet, at, (remark.text, titles.get(remark.table, "")), wrap)
    put(sheet, len(story.remarks) + 2, (RULES,), wrap)


def _table(book: Any, table: Table, bold: Any) -> None:
    name = name_of(table)
    sheet = book.add_worksheet(name)
    sheet.set_column(0, 0, WIDE)
    sheet.set_column(1, len(table.heads), NARROW)
    sheet.freeze_panes(1, 1)
    put(sheet, 0, table.heads, bold)
    for at, row in enumerate(table.rows, 1):
        put(sheet, at, row)
    if table.note:
        put(sheet, len(table.rows) + 2, (table.note,))
    if table.chart and len(table.bars) > 1:
        sheet.insert_chart(0, len(table.heads) + 1, _chart(book, name, table))


def _chart(book: Any, name: str, table: Table) -> Any:
    made = book.add_chart({"type": "bar"})
    last, column = len(table.rows), table.chart
    made.add_series(
        {
            "name": [name, 0, column],
            "categories": [name, 1, 0, last, 0],
            "values": [name, 1, column, last, column],
            "fill": {"color": CHART_COLOUR},
            "data_labels": {"value": True},
        }
    )
    made.set_title({"name": table.title})
    made.set_legend({"none": True})
    made.set_y_axis({"reverse": True})
    made.set_size({"width": 640, "height": 120 + 22 * last})
    return made


def name_of(table: Table) -> str:
    """The name of a table's sheet."""
    return "".join(c for c in table.title if c not in r"[]:*?/\\")[:LONGEST_NAME]


def put(sheet: Any, at: int, values: Iterable[object], form: Any = None) -> None:
    """Write one row: counts as numbers, everything else as text."""
    for column, value in enumerate(values):
        if isinstance(value, int | float):
            sheet.write_number(at, column, value, form)
        else:
            sheet.write_string(at, column, shown(value), form)  # type: ignore[arg-type]
