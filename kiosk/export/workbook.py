"""week.xlsx: the report and the events. Texts are written as texts, never as formulas or links."""

from __future__ import annotations

from tempfile import TemporaryDirectory

import xlsxwriter
from xlsxwriter.exceptions import XlsxFileError as WorkbookFault

from kiosk.core.report import Report
from kiosk.export.folder import Part
from kiosk.export.report import Told, add_report, story
from kiosk.export.report.workbook import put
from kiosk.export.rows import Row

__all__ = ["Workbook", "WorkbookFault"]

MOST_ROWS = 1_000_000  # a sheet holds 1,048,576 rows (Office Open XML limits of the common readers)
TIMES = ("time_utc", "time_local", "corrected_utc")
WIDTHS = {"entry": 8, **dict.fromkeys(TIMES, 19), "clock": 18, "event": 22, "details": 80}


class Workbook:
    """Writes rows as they come, in little memory. For use in a `with`; `finish` makes it whole.

    Rows wait in a temporary folder that is taken away in any case.
    """

    def __init__(self, part: Part, report: Report) -> None:
        self._waiting = TemporaryDirectory(prefix="workbook-")
        options = {"constant_memory": True, "tmpdir": self._waiting.name}
        self._book = xlsxwriter.Workbook(part, options)
        self._bold = self._book.add_format({"bold": True})
        add_report(self._book, story(report, Told()))
        self._sheets = 0
        self._begin_events()

    def add(self, row: Row) -> None:
        """Write one event; a further sheet begins when one is full."""
        if self._next > MOST_ROWS:
            self._begin_events()
        put(self._sheet, self._next, row)
        self._next += 1

    def finish(self) -> None:
        """Put the workbook together."""
        self._book.close()

    def __enter__(self) -> Workbook:
        return self

    def __exit__(self, *_: object) -> None:
        self._waiting.cleanup()

    def _begin_events(self) -> None:
        self._sheets += 1
        name = "Events" if self._sheets == 1 else f"Events {self._sheets}"
        self._sheet = self._book.add_worksheet(name)
        self._sheet.freeze_panes(1, 0)
        for column, title in enumerate(Row._fields):
            self._sheet.set_column(column, column, WIDTHS.get(title, 16))
        put(self._sheet, 0, Row._fields, self._bold)
        self._next = 1
