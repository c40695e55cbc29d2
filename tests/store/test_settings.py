"""What the record's durability rests on is set on every connection, and asserted."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from kiosk.core.events import StepDone
from kiosk.store import ReadOnlyRecord, Record
from kiosk.store.engine import (
    JOURNALS,
    WrongSetting,
    expect,
    reading_engine,
    settle_journal,
    writing_engine,
)
from tests.recording import Playing

DONE = StepDone("eyes", "pupil")


def pragma(connection, name: str) -> object:  # type: ignore[no-untyped-def]
    return connection.exec_driver_sql(f"PRAGMA {name}").scalar()


@pytest.mark.parametrize("journal", JOURNALS)
def test_every_writing_connection_is_set_for_power_cuts(path: Path, journal: str) -> None:
    Record.open(path, journal=journal).close()
    engine = writing_engine(path, journal)

    connections = [engine.connect() for _ in range(1)]

    for connection in connections:
        assert pragma(connection, "journal_mode") == journal
        assert pragma(connection, "synchronous") == 2  # FULL
        assert pragma(connection, "foreign_keys") == 1
        assert pragma(connection, "busy_timeout") == 5000
        assert pragma(connection, "trusted_schema") == 0
        connection.close()


def test_every_reading_connection_can_only_read(path: Path) -> None:
    Record.open(path).close()
    engine = reading_engine(path)

    connections = [engine.connect() for _ in range(5)]

    for connection in connections:
        assert pragma(connection, "query_only") == 1
        assert pragma(connection, "busy_timeout") == 5000
        connection.close()


def test_a_transaction_has_the_write_lock_before_it_reads(path: Path, playing: Playing) -> None:
    other = sqlite3.connect(path, isolation_level=None, timeout=0)

    with (
        playing.record._connected.transaction(),
        pytest.raises(sqlite3.OperationalError, match="locked"),
    ):
        other.execute("BEGIN IMMEDIATE")

    other.close()


def test_a_setting_that_does_not_hold_is_refused(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA synchronous = NORMAL")

    with pytest.raises(WrongSetting, match="synchronous is 1; it must be 2"):
        expect(connection, "synchronous", 2)

    connection.close()


def test_truncate_takes_over_where_no_write_ahead_log_can_be(path: Path) -> None:
    """A file system without shared memory, as SQLite's dot-file locking stands for."""
    connection = sqlite3.connect(f"file:{path}?vfs=unix-dotfile", uri=True)

    journal = settle_journal(connection, "wal")

    assert journal == "truncate"
    connection.close()


def test_a_database_in_memory_is_no_record() -> None:
    connection = sqlite3.connect(":memory:")

    with pytest.raises(WrongSetting, match="journal_mode is memory"):
        settle_journal(connection, "wal")

    connection.close()


def test_with_truncate_the_record_does_all_it_does_with_wal(path: Path) -> None:
    playing = Playing(Record.open(path, journal="truncate"))

    made = [e for _ in range(30) for e in playing.happens(DONE)]
    with ReadOnlyRecord(path) as read:
        seen = list(read.entries(1, read.head[0]))

    assert playing.record.journal == "truncate"
    assert seen == made == list(playing.record.entries())
    assert not path.with_name("record.sqlite-wal").exists()
    playing.record.close()


def test_a_record_can_go_from_one_journal_to_the_other_and_back(path: Path) -> None:
    for n, journal in enumerate(("wal", "truncate", "wal"), 1):
        record = Record.open(path, journal=journal)
        Playing(record).happens(DONE)

        assert (record.journal, record.head[0]) == (journal, n)
        record.close()


def test_another_journal_is_refused_by_name(path: Path) -> None:
    with pytest.raises(ValueError, match="journal 'off'; allowed: wal, truncate"):
        Record.open(path, journal="off")
