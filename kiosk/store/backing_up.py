"""A copy of the whole record beside a running kiosk, by SQLite's own backup: as of one moment.

It is there for the day a card fails. Nothing ever puts it back in place of a newer record.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path
from urllib.parse import quote

from kiosk.store.faults import fault, fault_of
from kiosk.store.files import make_private, sync_folder

PAGES = 512
"""So many pages at a time, so that the kiosk never waits for long."""


def back_up(record: Path, to: Path) -> None:
    """Copy the record into the new file `to`, whole and on the card, or not at all.

    Raises RecordFault, FileNotFoundError if there is no record.
    """
    if not record.is_file():
        raise FileNotFoundError(f"{record}: no record here")
    part = to.with_name(f"{to.name}.part")
    try:
        part.unlink(missing_ok=True)
        make_private(part)
        _copy(record, part)
        part.replace(to)
        sync_folder(to.parent)
    except (sqlite3.Error, OSError) as error:
        raise fault_of(error, to) from error


def _copy(record: Path, to: Path) -> None:
    """Copied pages are written through at the end: SQLite syncs what its backup commits."""
    source = sqlite3.connect(f"file:{quote(str(record))}?mode=ro", uri=True)
    try:
        copy = sqlite3.connect(to, isolation_level=None)
        try:
            copy.execute("PRAGMA synchronous = FULL")
            source.backup(copy, pages=PAGES)
            copy.execute("PRAGMA journal_mode = DELETE")
            _see_whole(copy, to)
        finally:
            copy.close()
    finally:
        source.close()


def _see_whole(copy: sqlite3.Connection, to: Path) -> None:
    found = copy.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise fault("damaged", to, str(found))
