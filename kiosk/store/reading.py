"""Reading a record beside the kiosk that writes it: for downloads, reports and checks."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import SQLAlchemyError

from kiosk.core.events import Downloaded, Entry
from kiosk.core.model import Adult, Group
from kiosk.core.plan.shape import Plan
from kiosk.store import erasable, packages, people, queries
from kiosk.store.codec import Line, decode
from kiosk.store.engine import reading_engine
from kiosk.store.erasable import KeptNote
from kiosk.store.faults import RecordFault, fault, fault_of
from kiosk.store.files import beside
from kiosk.store.packages import Taken
from kiosk.store.queries import Broken
from kiosk.store.schema import is_known, schema_of

DAY_US = 86_400_000_000
SPANS = {"week": 7 * DAY_US, "term": 98 * DAY_US, "year": 366 * DAY_US}


@dataclass(frozen=True)
class Span:
    """A stretch of the log by number: `first` to `last`, with the hashes at both ends.

    `prev` is the hash before the first line and `head` that of the last; `size` counts the
    bytes of the lines. `last` is `first` - 1 where there is nothing in it.
    """

    name: str
    first: int
    last: int
    prev: str
    head: str
    size: int


class Kept(NamedTuple):
    """What a record keeps apart: references of pupils and adults, and notes."""

    pupils: tuple[str, ...]
    adults: tuple[str, ...]
    notes: tuple[KeptNote, ...]


@dataclass(frozen=True)
class Stretch:
    """Lines of a record; going through them again reads them again."""

    record: ReadOnlyRecord
    first: int
    last: int

    def __iter__(self) -> Iterator[Line]:
        return self.record.lines(self.first, self.last)

    def blocks(self) -> Iterator[bytes]:
        """The bytes of the lines, many at a time, each line ended by a line feed."""
        return self.record.blocks(self.first, self.last)


class ReadOnlyRecord:
    """A record open for reading only; the kiosk may go on writing. Usable in a `with`."""

    def __init__(self, path: Path) -> None:
        """Opens the record as it is now; raises RecordFault, FileNotFoundError if there is none."""
        self.path = Path(path).absolute()
        if not self.path.is_file():
            raise FileNotFoundError(f"{path}: no record here")
        self._connection: Connection | None = None
        with self._faults():
            self._connection = _connect(self.path)
            self.schema = schema_of(self._connection)
            if not is_known(self._connection, self.schema):
                why = "newer" if self.schema else "damaged"
                raise fault(why, self.path, f"schema {self.schema or 'none'}")
            self.log = queries.log_of(self._connection) or ""
            self._head = queries.head_of(self._connection, self.log)
            self.begin = queries.begin_of(self._connection, self.log)
            self._connection.rollback()

    @property
    def head(self) -> tuple[int, str]:
        """Number and hash of the last line when the record was opened."""
        return self._head.seq, self._head.hash

    def span(self, name: str, sized: bool = True) -> Span:
        """The stretch called `week`, `term`, `year`, `since-last` or `all`, always up to `head`.

        A week is the lines of the last 7 days by the wall clock, a term of 98, a year of 366; each
        is the shortest stretch by number that holds them, so a wrong clock can only make it longer.
        """
        with self._faults() as connection:
            first = max(self._first(connection, name), self.begin.first)
            before = queries.page_of(connection, self.log, first - 1, first - 1)
            size = queries.size_of(connection, self.log, first, self.head[0]) if sized else 0
        prev = before[0].hash if before and first > self.begin.first else self.begin.prev
        return Span(name, first, self.head[0], prev, self.head[1], size)

    def _first(self, connection: Connection, name: str) -> int:
        if name == "all":
            return 1
        if name == "since-last":
            line = queries.last_of(connection, self.log, "downloaded")
            event = decode(line.bytes)[1].event if line else None
            return event.last + 1 if isinstance(event, Downloaded) else 1
        rows = queries.backwards(connection, self.log)
        return first_within((row for row in rows if row[0] <= self.head[0]), SPANS[name])

    def lines(self, first: int, last: int) -> Iterator[Line]:
        """The stored lines `first` to `last` in order, a page at a time; memory stays flat."""
        while first <= last:
            with self._faults() as connection:
                page = queries.raw_page(connection, self.log, first, last)
            yield from page
            if not page:
                raise fault("damaged", self.path, f"line {first} is missing")
            first = page[-1].seq + 1

    def blocks(self, first: int, last: int) -> Iterator[bytes]:
        """The bytes of the lines `first` to `last`, many at a time; memory stays flat."""
        for begin in range(first, last + 1, queries.LONG_PAGE):
            with self._faults() as connection:
                until = min(last, begin + queries.LONG_PAGE - 1)
                block = queries.block_of(connection, self.log, begin, until)
            yield block

    def plan_of(self, digest: str) -> Plan | None:
        """The plan kept under a digest; raises RecordFault if it can't be read."""
        with self._faults() as connection:
            return queries.plan_of(connection, digest)

    def stretch(self, first: int, last: int) -> Stretch:
        """The stored lines `first` to `last`, to be gone through as often as needed."""
        return Stretch(self, first, last)

    def entries(self, first: int, last: int) -> Iterator[Entry]:
        """The entries `first` to `last` in order; starts of sessions have their plans."""
        for _, entry in self.with_hashes(first, last):
            yield entry

    def with_hashes(self, first: int, last: int) -> Iterator[tuple[str, Entry]]:
        """The entries `first` to `last` in order, each with its line's hash."""
        known: dict[str, Plan | None] = {}
        for line in self.lines(first, last):
            with self._faults() as connection:
                entry = queries.entry_of(connection, line, known)
            yield line.hash, entry

    def of_kinds(self, *kinds: str) -> Iterator[Entry]:
        """All entries of some kinds in order, without plans."""
        first = self.begin.first
        while True:
            with self._faults() as connection:
                page = queries.page_of_kinds(connection, self.log, first, list(kinds))
            if not page:
                return
            yield from (decode(line.bytes)[1] for line in page)
            first = page[-1].seq + 1

    def last(self, kind: str) -> Entry | None:
        """The last entry of a kind; None if there is none."""
        with self._faults() as connection:
            line = queries.last_of(connection, self.log, kind)
            return queries.entry_of(connection, line, {}) if line else None

    def groups(self) -> tuple[Group, ...]:
        """Today's roster, as it was taken in last."""
        with self._faults() as connection:
            return people.kept_groups(connection)

    def adults(self) -> tuple[Adult, ...]:
        """All adults kept, by name."""
        with self._faults() as connection:
            return erasable.known_adults(connection)

    def taken_in(self) -> tuple[Taken, ...]:
        """Which package each part that came from a stick is from."""
        with self._faults() as connection:
            return packages.taken(connection)

    def machine(self) -> str:
        """The machine that the last start of the kiosk named; empty before the first."""
        with self._faults() as connection:
            return queries.machine_of(connection, self.log)

    def look_through(self) -> None:
        """Check every page and every line of the chain; raises RecordFault `damaged`.

        Opening checks the newest lines only, so that a start takes no longer as years go by.
        """
        with self._faults() as connection:
            queries.check_pages(connection)
        seq, prev = self.begin.first, self.begin.prev
        for line in self.lines(seq, self.head[0]):
            with self._faults():
                queries.check_line(line, self.log, seq, prev)
            seq, prev = seq + 1, line.hash

    def kept(self) -> Kept:
        """What is kept apart and may be erased: references of pupils and adults, and notes."""
        with self._faults() as connection:
            adults = tuple(a.ref for a in erasable.known_adults(connection))
            notes = erasable.known_notes(connection)
            return Kept(erasable.known_pupils(connection), adults, notes)

    @contextmanager
    def _faults(self) -> Iterator[Connection]:
        """The connection; every error as a RecordFault, no transaction left open."""
        try:
            yield self._connection  # type: ignore[misc]
            if self._connection is not None:
                self._connection.rollback()
        except (SQLAlchemyError, sqlite3.Error, OSError) as error:
            raise fault_of(error, self.path) from error
        except Broken as error:
            raise fault("damaged", self.path, str(error)) from error

    def close(self) -> None:
        """Close the connection. May be called twice."""
        connection, self._connection = self._connection, None
        if connection is not None:
            connection.close()

    def __enter__(self) -> ReadOnlyRecord:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def _connect(path: Path) -> Connection:
    """A reading connection; on a card that can't be written to, one that needs no WAL."""
    try:
        return _tried(reading_engine(path))
    except SQLAlchemyError as error:
        log = beside(path, "-wal")
        if log.exists() and log.stat().st_size > 0:
            more = "it has a write-ahead log: copy all its files to a disk and read them there"
            raise RecordFault("read_only", f"{path}: {more}") from error
        return _tried(reading_engine(path, immutable=True))


def _tried(engine: Engine) -> Connection:
    connection = engine.connect()
    try:
        connection.exec_driver_sql("SELECT count(*) FROM sqlite_master")
    except BaseException:
        connection.close()
        raise
    return connection


def first_within(backwards: Iterable[tuple[int, int, int]], span_us: int) -> int:
    """The first number of the shortest stretch that holds the last `span_us` of wall clock.

    `backwards` gives (number, wall clock in µs, its quality), the last line first. Lines are
    compared with the latest one whose clock is trusted most; one whose clock is trusted less
    never ends the stretch.
    """
    first, until, trust = 1, None, -1
    for seq, wall_us, quality in backwards:
        if quality > trust:
            until, trust = wall_us, quality
        if until is not None and quality >= trust and wall_us < until - span_us:
            return seq + 1
        first = seq
    return first
