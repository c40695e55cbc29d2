"""The schema: the tables as code knows them are the ones the migrations make."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from kiosk.store import Record, RecordFault, schema
from kiosk.store.migrations.versions import m0001_first
from kiosk.store.renewing import APPLICATION
from kiosk.store.tables import SCHEMA, SCHEMAS, metadata
from tests.recording import Playing


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
