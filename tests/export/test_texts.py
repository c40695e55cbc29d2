"""Any text that an adult may type, cleaned at entry by the stated rule, survives in every file.

JSON lines give back each letter; the table and the workbook too, the table but for the mark before
a text that a spreadsheet would take for a formula.
"""

from __future__ import annotations

import csv
import io
import json
import zipfile
from pathlib import Path

import openpyxl
import rfc8785
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from openpyxl.utils.escape import unescape

from kiosk.export.rows import guarded
from kiosk.export.table import Table
from kiosk.store.erasable import cleaned
from tests.export.test_views import fill, row, written

any_text = st.text(st.characters(), max_size=60)


@settings(
    max_examples=60,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    deadline=None,
)
@given(any_text)
@example("=1+1")
@example("\ud800 half a letter")
@example('"quoted", and; more\r\nlines\u2028and\u0085more')
@example("_x0041_ \ufffe \ufffd \U0001f529 \u202egnp.exe")
def test_any_text_that_is_kept_survives_in_every_file(tmp_path: Path, typed: str) -> None:
    kept = cleaned(typed)

    lines = rfc8785.dumps({"text": kept})
    table = written(tmp_path, "t.csv", lambda part: Table(part).add(row(kept)))
    book = written(tmp_path, "w.xlsx", lambda part: fill(part, kept))

    assert json.loads(lines)["text"] == kept
    assert b"\n" not in lines
    _, body = csv.reader(io.StringIO(table.decode("utf-8-sig"), newline=""))
    assert body[1:7] == [guarded(kept)] * 6
    assert from_book(book) == kept
    with zipfile.ZipFile(io.BytesIO(book)) as parts:
        sheets = [parts.read(n) for n in parts.namelist() if "worksheets/" in n]
    assert not any(b"<f>" in sheet for sheet in sheets)


def from_book(book: bytes) -> str:
    """The text of a cell, as a reader of workbooks gives it."""
    cell = openpyxl.load_workbook(io.BytesIO(book))["Events"].cell(2, 5)
    return unescape(str(cell.value or ""))
