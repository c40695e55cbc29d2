"""A small table as a spreadsheet saves it: rows with their line numbers, from text or workbook."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from io import BytesIO
from typing import Any
from zipfile import BadZipFile

A_DATE = "a date"
"""What a cell says that a spreadsheet has made into a date; no list number and no group is one."""


@dataclass(frozen=True)
class Row:
    """One line of the file. `why` says why its cells could not be read, else it is empty."""

    line: int
    cells: tuple[str, ...] = ()
    why: str = ""


def decoded(raw: bytes) -> str:
    """The text of a file: UTF-8, UTF-16 with its mark, or else Windows letters."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252")


def rows(text: str) -> Iterator[Row]:
    """Each row but empty ones and remarks; commas, semicolons or tabs, as the first row has.

    A quote that is not closed on its line is that row's mistake, so that it can't swallow the
    rows after it.
    """
    numbered = [(n, line) for n, line in enumerate(_lines(text), start=1) if _counts(line)]
    mark = max(",;\t", key=numbered[0][1].count) if numbered else ","
    for number, line in numbered:
        yield _row(number, line, mark)


def _lines(text: str) -> list[str]:
    return re.split(r"\r\n|\n|\r", text)


def _counts(line: str) -> bool:
    return bool(line.strip(" ,;\t")) and not line.lstrip(' "').startswith("#")


def _row(number: int, line: str, mark: str) -> Row:
    try:
        cells = next(csv.reader([line], delimiter=mark, skipinitialspace=True, strict=True))
    except csv.Error:
        return Row(number, why=f"quotes that don't match in {line.strip()!r}")
    return Row(number, tuple(" ".join(cell.split()) for cell in cells))


# --- workbooks -----------------------------------------------------------------------------------


class NoWorkbook(ValueError):
    """Bytes that are no workbook, or one that can't be opened."""


def is_workbook(raw: bytes) -> bool:
    """Whether the bytes begin as a workbook does (a ZIP file)."""
    return raw.startswith(b"PK\x03\x04")


def sheets(raw: bytes) -> Iterator[tuple[str, tuple[Row, ...]]]:
    """Each sheet that can be seen: its name and its rows, cells as a reader would type them.

    Raises NoWorkbook.
    """
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        book = load_workbook(BytesIO(raw), data_only=True)
        found = [(s.title, tuple(_sheet_rows(s))) for s in book.worksheets if _is_seen(s)]
    except (BadZipFile, InvalidFileException, KeyError, ValueError, TypeError, OSError) as error:
        raise NoWorkbook(str(error)) from error
    yield from found


def _is_seen(sheet: Any) -> bool:
    return bool(sheet.sheet_state == "visible")


def _sheet_rows(sheet: Any) -> Iterator[Row]:
    for number, cells in enumerate(sheet.iter_rows(values_only=True), start=1):
        told = tuple(_told(cell) for cell in cells)
        if any(told) and not told[0].startswith("#"):
            yield Row(number, told)


def _told(cell: object) -> str:
    """A cell as text: 14.0 is 14, and a date is called one."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, date | datetime):
        return A_DATE
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return " ".join(str(cell).split())
