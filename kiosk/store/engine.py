"""Connections to SQLite: what every one of them must be set to, and asserted to be.

One connection writes; it holds BEGIN IMMEDIATE for every transaction, so that nothing is read
before the write lock is had. WAL with FULL syncs once a commit and loses no acknowledged row at
a power cut; TRUNCATE with FULL does the same where a card or file system can't keep a WAL.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.pool import NullPool

FULL = 2
BUSY_MS = 5000
JOURNALS = ("wal", "truncate")


class WrongSetting(sqlite3.OperationalError):
    """SQLite did not take a setting that the record's durability rests on."""


def writing_engine(path: Path, journal: str = "wal") -> Engine:
    """The engine of the one writing connection. `journal` is `wal` or `truncate`."""
    if journal not in JOURNALS:
        raise ValueError(f"journal {journal!r}; allowed: {', '.join(JOURNALS)}")
    engine = _engine(f"file:{quote(str(path))}?mode=rw", "BEGIN IMMEDIATE")

    @event.listens_for(engine, "connect")
    def _set(connection: sqlite3.Connection, _: Any) -> None:
        settle(connection)
        settle_journal(connection, journal)
        connection.execute("PRAGMA secure_delete = ON")  # what is erased is gone from the file

    return engine


def reading_engine(path: Path, *, immutable: bool = False) -> Engine:
    """An engine that can only read, beside a running kiosk. It never writes or checkpoints.

    `immutable` is for a card that can't be written to and holds no write-ahead log.
    """
    more = "immutable=1" if immutable else "mode=ro"
    engine = _engine(f"file:{quote(str(path))}?{more}", "BEGIN")

    @event.listens_for(engine, "connect")
    def _set(connection: sqlite3.Connection, _: Any) -> None:
        settle(connection)
        connection.execute("PRAGMA query_only = ON")

    return engine


def _engine(uri: str, begin: str) -> Engine:
    def connect() -> sqlite3.Connection:
        return sqlite3.connect(uri, uri=True, isolation_level=None, check_same_thread=False)

    engine = create_engine("sqlite://", creator=connect, poolclass=NullPool)

    @event.listens_for(engine, "begin")
    def _begin(connection: Any) -> None:
        connection.exec_driver_sql(begin)

    return engine


def settle(connection: sqlite3.Connection) -> None:
    """What holds for every connection, reading or writing."""
    connection.execute(f"PRAGMA busy_timeout = {BUSY_MS}")
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    expect(connection, "foreign_keys", 1)
    expect(connection, "trusted_schema", 0)
    expect(connection, "synchronous", FULL)


def settle_journal(connection: sqlite3.Connection, journal: str) -> str:
    """Set the journal; where a file system can't keep a WAL, TRUNCATE. What it is now."""
    for wanted in dict.fromkeys((journal, "truncate")):
        (now,) = connection.execute(f"PRAGMA journal_mode = {wanted}").fetchone()
        if now == wanted:
            return wanted
    raise WrongSetting(f"journal_mode is {now}; allowed: {', '.join(JOURNALS)}")


def expect(connection: sqlite3.Connection, pragma: str, wanted: int) -> None:
    """Assert that a setting holds; raises WrongSetting, since durability rests on it."""
    (now,) = connection.execute(f"PRAGMA {pragma}").fetchone()
    if now != wanted:
        raise WrongSetting(f"{pragma} is {now}; it must be {wanted}")
