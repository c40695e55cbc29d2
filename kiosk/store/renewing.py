"""A damaged record: set aside, and what can still be read of it carried into a new one."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Table, select
from sqlalchemy.dialects.sqlite import insert as upsert
from sqlalchemy.exc import SQLAlchemyError

from kiosk.core.events import Entry, Event, RecordRenewed, TakenOutOfUse
from kiosk.core.kiosk import EMPTY, Kiosk, advance
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Moment
from kiosk.store import queries
from kiosk.store.carrying import adult_events, kept_events
from kiosk.store.codec import BEFORE_FIRST
from kiosk.store.engine import reading_engine, writing_engine
from kiosk.store.files import Head, HeadFile, beside
from kiosk.store.purging import Begin
from kiosk.store.queries import Broken
from kiosk.store.tables import adults, groups, keys, listed, notes, packages, pupils

UNREADABLE = (SQLAlchemyError, sqlite3.Error, OSError, Broken, ValueError, AssertionError)
APPLICATION = 0x50494C52
"""What a record's file says it is, in its header; set by the first migration."""


@dataclass
class Old:
    """What a damaged record still says: its end as far as known, its state, its people."""

    head: Head = Head("", 0, BEFORE_FIRST)
    last: Moment = Moment("", 0, 0)
    kiosk: Kiosk = EMPTY
    rows: dict[Table, list[dict[str, Any]]] = field(default_factory=dict)

    def copy_people(self, connection: Connection) -> None:
        """Put the names, PIN hashes and notes that could be read into the new record."""
        for table, rows in self.rows.items():
            for row in rows:
                connection.execute(upsert(table).values(**row).on_conflict_do_nothing())


def is_a_record(record: Path) -> bool:
    """Whether a file is a kiosk's record, however damaged, or a new one; never another file."""
    if beside(record, ".head").exists() or not record.exists() or record.stat().st_size == 0:
        return True
    try:
        with _looking_engine(record).connect() as connection:
            mark = connection.exec_driver_sql("PRAGMA application_id").scalar()
            tables = connection.exec_driver_sql("SELECT count(*) FROM sqlite_master").scalar()
    except UNREADABLE:
        return False
    return mark == APPLICATION or tables == 0


def _looking_engine(record: Path) -> Engine:
    """An engine to look with; one that may write where a journal must be rolled back first."""
    if beside(record, "-journal").exists():
        return writing_engine(record, "truncate")
    return reading_engine(record)


def last_aside(record: Path) -> Path | None:
    """The record last set aside, if there is one."""
    found = {
        int(match[1]): path
        for path in record.parent.glob(f"{record.name}.damaged-*")
        if (match := re.search(r"\.damaged-(\d+)$", path.name))
    }
    return found[max(found)] if found else None


def old_record(aside: Path) -> Old:
    """All that can still be read of a record set aside; nothing is demanded of it."""
    old = Old()
    kept = HeadFile(aside).read()
    with suppress(*UNREADABLE), reading_engine(aside).connect() as connection:
        with suppress(*UNREADABLE):
            _read_log(connection, old)
        for table in (adults, pupils, notes, keys, groups, listed, packages):
            with suppress(*UNREADABLE):
                old.rows[table] = [dict(row._mapping) for row in connection.execute(select(table))]
    if kept is not None and (kept.log != old.head.log or kept.seq >= old.head.seq):
        old.head = kept
    return old


def _read_log(connection: Connection, old: Old) -> None:
    """Fold the log as far as its chain holds."""
    log = queries.log_of(connection)
    if log is None:
        return
    begin = queries.begin_of(connection, log)
    old.head, old.kiosk = Head(log, begin.first - 1, begin.prev), begin.kiosk()
    for line_hash, entry in _chained(connection, log, begin):
        old.kiosk = advance(old.kiosk, entry)
        old.head, old.last = Head(log, entry.seq, line_hash), entry.at


def _chained(connection: Connection, log: str, begin: Begin) -> Iterator[tuple[str, Entry]]:
    known: dict[str, Plan | None] = {}
    seq, prev = begin.first, begin.prev
    while page := queries.page_of(connection, log, seq, seq + queries.PAGE - 1):
        for line in page:
            queries.check_line(line, log, seq, prev)
            yield line.hash, queries.entry_of(connection, line, known)
            seq, prev = seq + 1, line.hash


def take_over(old: Old, now: Moment | None) -> tuple[tuple[Entry, ...], Kiosk]:
    """The first entries of the new log and the state after them.

    Without `now` they have the last wall clock of the old log, marked as never set.
    """
    at = now or Moment("", 0, old.last.wall_us, 0)
    entries = tuple(Entry(n, at, event) for n, event in enumerate(_carried(old), 1))
    kiosk = EMPTY
    for entry in entries:
        kiosk = advance(kiosk, entry)
    return entries, kiosk


def _carried(old: Old) -> tuple[Event, ...]:
    """The pointer, who may use the kiosk, training levels, and out of use if it was."""
    known = [a for a in old.kiosk.adults.known if not a.revoked]
    out, by = old.kiosk.machine.out_of_use, old.kiosk.machine.out_by
    return (
        RecordRenewed(old.head.log, old.head.seq, old.head.hash),
        *(event for adult in known for event in adult_events(adult)),
        *kept_events(old.kiosk),
        *((TakenOutOfUse(out, by),) if out else ()),
    )
