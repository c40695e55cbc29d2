"""Saves a record with every kind of event there is, before a migration changes its schema.

`python -m tests.store.saving` writes `tests/store/old/schema-NNNN.db`, which must read for ever.
"""

from __future__ import annotations

import sqlite3
from dataclasses import fields
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, get_type_hints

from kiosk.core.events import RECORDED_KINDS, Event, Noted, Purged, SessionStarted
from kiosk.core.model import Adult
from kiosk.store import Record
from kiosk.store.tables import SCHEMA
from tests.recording import Playing, play_lesson

OLD = Path(__file__).parent / "old"
WORDS = {"reading": "off", "level": "shown", "how": "finished", "after": "clean", "what": "pupil"}
VALUES: dict[Any, object] = {int: 3, str: "word"}


def one(kind: type[Event]) -> Event:
    """An event of a kind, with values that mean something where they must."""
    hints = get_type_hints(kind)
    of = {f.name: VALUES.get(hints[f.name], ("one", "two")) for f in fields(kind)}
    return kind(**{name: WORDS.get(name, value) for name, value in of.items()})


def fill(record: Record) -> None:
    """A lesson, people, a note, and then each kind once."""
    record.keep_adult(Adult("a1", "Alex Invented", "technician"), "hash of a PIN")
    record.pupil_refs("year-9", (1, 2, 3))
    note, digest = record.keep_note("near_miss", "swarf", "the guard stuck, invented")
    playing = Playing(record)
    play_lesson(playing)
    playing.happens(Noted("a1", note, "near_miss", "swarf", digest))
    for kind in RECORDED_KINDS.values():
        if kind not in (SessionStarted, Noted, Purged):
            playing.happens(one(kind))


def save() -> Path:
    """Write the file; it holds no checkpoints, as those are never read by other code."""
    with TemporaryDirectory() as folder:
        made = Path(folder) / "record.sqlite"
        record = Record.open(made)
        fill(record)
        record.close()
        with sqlite3.connect(made, isolation_level=None) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")
            connection.execute("DELETE FROM checkpoints")
            connection.execute("VACUUM")
        connection.close()
        saved = OLD / f"schema-{SCHEMA}.db"
        saved.write_bytes(made.read_bytes())
        return saved


if __name__ == "__main__":
    print(save())
