"""A small table as a spreadsheet saves it: text out of bytes, rows with their line numbers."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass


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
