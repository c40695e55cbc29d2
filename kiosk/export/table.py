"""events.csv: UTF-8 with a byte order mark, CRLF, and no text that could be a formula."""

from __future__ import annotations

import csv

from kiosk.export.folder import Part
from kiosk.export.rows import Row, guarded

BYTE_ORDER_MARK = b"\xef\xbb\xbf"


class Table:
    """Writes rows as they come."""

    def __init__(self, part: Part) -> None:
        self._part = part
        self._writer = csv.writer(self, lineterminator="\r\n")
        part.write(BYTE_ORDER_MARK)
        self._writer.writerow(Row._fields)

    def add(self, row: Row) -> None:
        """Write one row."""
        self._writer.writerow([guarded(v) if isinstance(v, str) else v for v in row])

    def write(self, text: str) -> int:
        """For the csv writer: one line of text."""
        return self._part.write(text.encode())
