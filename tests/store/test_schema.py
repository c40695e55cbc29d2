"""The schema: the tables as code knows them are the ones the migrations make."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

import pytest

from kiosk.store import ReadOnlyRecord, Record, RecordFault, UnknownKind, schema
from kiosk.store.migrations.versions import m0001_first
from kiosk.store.renewing import APPLICATION
from kiosk.store.tables import SCHEMA, SCHEMAS, metadata
from tests.recording import Playing, lesson_at

ONCE = ("logs", "events", "plans", "content", "begins")


def test_the_tables_in_code_are_the_ones_in_the_record(path: Path, playing: Playing) -> None:
    with sqlite3.connect(path) as connection:
        made = {
            table: {
                (name, kind, bool(required))
                for _, name, kind, required, _, _ in connection.execute(
                    f"PRAGMA table_info({table})"
                )
            }
            for table in metadata.tables
        }
    connection.close()

    known = {
        name: {(c.name, _sqlite_type(c.type), not c.nullable) for c in table.columns}
        for name, table in metadata.tables.items()
    }

    assert made == known


def _sqlite_type(kind: object) -> str:
    return {"LargeBinary": "BLOB"}.get(type(kind).__name__, type(kind).__name__.upper())


def test_every_table_is_strict(path: Path, playing: Playing) -> None:
    with sqlite3.connect(path) as connection:
        strict = {row[1]: row[5] for row in connection.execute("PRAGMA table_list")}
    connection.close()

    assert {name: strict[name] for name in metadata.tables} == dict.fromkeys(metadata.tables, 1)


def test_the_newest_migration_is_the_schema_that_code_knows() -> None:
    files = sorted(p.stem for p in (schema.MIGRATIONS / "versions").glob("m*.py"))

    assert [f"{n:04d}" for n in range(1, len(files) + 1)] == list(SCHEMAS)
    assert files[-1].startswith(f"m{SCHEMA}")


def test_the_record_is_marked_in_its_header(path: Path, playing: Playing) -> None:
    with sqlite3.connect(path) as connection:
        (mark,) = connection.execute("PRAGMA application_id").fetchone()
    connection.close()

    assert mark == APPLICATION == m0001_first.APPLICATION


def test_a_migration_that_fails_leaves_nothing_of_itself(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    half = (*m0001_first.TABLES[:3], "CREATE TABLE broken (")
    text = Path(m0001_first.__file__).read_text()
    folder = path.parent / "migrations"
    (folder / "versions").mkdir(parents=True)
    (folder / "env.py").write_text((schema.MIGRATIONS / "env.py").read_text())
    changed = text.replace("def upgrade()", f"TABLES = {half!r}\n\n\ndef upgrade()")
    (folder / "versions" / "m0001_first.py").write_text(changed)
    with monkeypatch.context() as patch:
        patch.setattr(schema, "MIGRATIONS", folder)
        with pytest.raises(RecordFault):
            Record.open(path)

    with sqlite3.connect(path) as connection:
        left = connection.execute("SELECT name FROM sqlite_master").fetchall()
    connection.close()
    record = Record.open(path)

    assert left == []
    assert record.head[0] == 0
    record.close()


OLD = sorted((Path(__file__).parent / "old").glob("schema-*.db"))


@pytest.mark.parametrize("saved", OLD, ids=lambda p: p.stem)
def test_a_record_of_every_older_schema_is_brought_up_and_still_reads(
    saved: Path, path: Path
) -> None:
    """Each was saved by the code of its day, with every kind of event that it could write."""
    shutil.copy(saved, path)
    with ReadOnlyRecord(path) as before:
        lines = list(before.lines(1, before.head[0]))

    record = Record.open(path)
    entries = list(record.entries())

    assert record.schema == SCHEMA
    assert record.set_aside is None
    assert [e.event for e in entries if isinstance(e.event, UnknownKind)] == []
    assert [line.bytes for line in lines] == [bytes_of(path, e.seq) for e in entries]
    assert record.restore() == record.rebuild()
    record.close()


def bytes_of(path: Path, seq: int) -> bytes:
    with ReadOnlyRecord(path) as read:
        return next(read.lines(seq, seq)).bytes


def test_there_is_a_saved_record_of_every_older_schema() -> None:
    assert [p.stem for p in OLD] == [f"schema-{name}" for name in SCHEMAS[:-1]]


def test_the_tables_are_strict_and_written_once_after_each_migration(path: Path) -> None:
    for saved in OLD:
        shutil.copy(saved, path)
        Record.open(path).close()
        with sqlite3.connect(path) as connection:
            strict = {row[1]: row[5] for row in connection.execute("PRAGMA table_list")}
            found = connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
            triggers = {name for (name,) in found}
        connection.close()

        assert {name: strict[name] for name in metadata.tables} == dict.fromkeys(metadata.tables, 1)
        assert triggers >= {f"{t}_no_{act}" for t in ONCE for act in ("update", "delete")}
        path.unlink()


LATER = (
    "CREATE TABLE racks (bit TEXT NOT NULL PRIMARY KEY, good INTEGER NOT NULL) STRICT",
    "ALTER TABLE pupils ADD COLUMN colour TEXT NOT NULL DEFAULT ''",
    "UPDATE alembic_version SET version_num = '0099'",
)
"""What a later version may do to a record: add, and nothing else."""


def test_the_version_before_an_update_goes_on_with_the_record_after_it(path: Path) -> None:
    with lesson_at(path) as before:
        stood = before.record.head
    with sqlite3.connect(path) as connection:
        for act in LATER:
            connection.execute(act)
    connection.close()

    with lesson_at(path) as playing:
        record = playing.record
        assert (record.schema, record.set_aside) == ("0099", None)
        assert record.head[0] > stood[0]
        assert record.restore() == record.rebuild()
        record.pupil_refs("year-9", (7, 8))
    with ReadOnlyRecord(path) as read:
        read.look_through()
        assert read.head[0] > stood[0]
