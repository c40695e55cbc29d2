"""Questions to a record's tables, each over one connection."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, bindparam, func, inspect, select, text

from kiosk.core.events import Entry, KioskStarted, Purged, SessionStarted
from kiosk.core.plan.shape import Plan
from kiosk.store.codec import Line, NotALine, decode, is_known
from kiosk.store.files import Head
from kiosk.store.purging import Begin
from kiosk.store.shapes import WrongShape, plan_from_bytes
from kiosk.store.tables import begins, events, logs, plans

PAGE = 500
LONG_PAGE = 4000
SHORT_BYTES = 32 << 20
TAIL = 1000

_COLUMNS = (
    events.c.seq,
    events.c.wall_us,
    events.c.quality,
    events.c.kind,
    events.c.v,
    events.c.prev,
    events.c.hash,
    events.c.bytes,
)


_RAW = (
    f"SELECT {', '.join(column.name for column in _COLUMNS)} FROM events "
    "WHERE log = ? AND seq BETWEEN ? AND ? ORDER BY seq LIMIT ?"
)

_BLOCK = """
SELECT CAST(group_concat(CAST(bytes AS TEXT), char(10)) AS BLOB) FROM (
    SELECT bytes FROM events WHERE log = ? AND seq BETWEEN ? AND ? ORDER BY seq
)"""

_HEAD = (
    select(events.c.seq, events.c.hash)
    .where(events.c.log == bindparam("log"))
    .order_by(events.c.seq.desc())
    .limit(1)
)


_LAST_OF = text(
    "SELECT max(seq) FROM events INDEXED BY events_by_kind WHERE kind IN :kinds AND log = :log"
).bindparams(bindparam("kinds", expanding=True))

_NEXT_KIND = """
SELECT kind, v FROM events INDEXED BY events_by_kind
WHERE kind = ? AND v > ? UNION ALL
SELECT * FROM (
    SELECT kind, v FROM events INDEXED BY events_by_kind WHERE kind > ? ORDER BY kind, v LIMIT 1
) LIMIT 1"""


class Broken(Exception):
    """The record is not what was written; the text says where."""


def log_of(connection: Connection) -> str | None:
    """The record's random log id; None before it was given one."""
    return connection.execute(select(logs.c.log)).scalar()


def head_of(connection: Connection, log: str) -> Head:
    """The last line of the log; number 0 while it has none."""
    last = connection.execute(_HEAD, {"log": log}).first()
    return Head(log, last.seq, last.hash) if last else Head(log, 0, Begin().prev)


def begin_of(connection: Connection, log: str) -> Begin:
    """Where the log begins: at line 1, or where retention has cut it last."""
    if not inspect(connection).has_table(begins.name):
        return Begin()  # a record of the first schema, only read
    row = connection.execute(
        select(begins.c.first, begins.c.prev, begins.c.bytes)
        .where(begins.c.log == log)
        .order_by(begins.c.first.desc())
        .limit(1)
    ).first()
    return Begin(*row) if row else Begin()


def page_of(connection: Connection, log: str, first: int, last: int) -> list[Line]:
    """The next lines from `first` on, at most one page and not beyond `last`."""
    rows = connection.execute(
        select(*_COLUMNS)
        .where(events.c.log == log, events.c.seq.between(first, last))
        .order_by(events.c.seq)
        .limit(PAGE)
    )
    return [_line(row) for row in rows]


def raw_page(connection: Connection, log: str, first: int, last: int) -> list[Line]:
    """As `page_of`, a longer page and past SQLAlchemy: for whole records, line by line."""
    driver = connection.connection.driver_connection
    assert driver is not None
    return list(map(Line._make, driver.execute(_RAW, (log, first, last, LONG_PAGE))))


def block_of(connection: Connection, log: str, first: int, last: int) -> bytes:
    """The bytes of many lines, each ended by a line feed, put together by SQLite itself."""
    driver = connection.connection.driver_connection
    assert driver is not None
    (found,) = driver.execute(_BLOCK, (log, first, last)).fetchone()
    return bytes(found) + b"\n" if found else b""


def backwards(connection: Connection, log: str) -> Iterator[tuple[int, int, int]]:
    """Number, wall clock and its quality of each line, the last first."""
    rows = connection.execute(
        select(events.c.seq, events.c.wall_us, events.c.quality)
        .where(events.c.log == log)
        .order_by(events.c.seq.desc())
    )
    yield from map(tuple, rows)


def size_of(connection: Connection, log: str, first: int, last: int) -> int:
    """How many bytes the lines have together."""
    asked = select(func.sum(func.length(events.c.bytes))).where(
        events.c.log == log, events.c.seq.between(first, last)
    )
    return int(connection.execute(asked).scalar() or 0)


def last_of(connection: Connection, log: str, *kinds: str) -> Line | None:
    """The last line of any of these kinds; found by their index, however long the record is."""
    seq = connection.execute(_LAST_OF, {"log": log, "kinds": kinds}).scalar()
    page = page_of(connection, log, seq, seq) if seq else []
    return page[0] if page else None


def machine_of(connection: Connection, log: str) -> str:
    """The machine that the last start of the kiosk named; empty before the first."""
    line = last_of(connection, log, "kiosk_started")
    event = decode(line.bytes)[1].event if line else None
    return event.machine if isinstance(event, KioskStarted) else ""


def page_of_kinds(connection: Connection, log: str, first: int, kinds: list[str]) -> list[Line]:
    """The next lines of these kinds from `first` on, at most one page."""
    rows = connection.execute(
        select(*_COLUMNS)
        .where(events.c.log == log, events.c.seq >= first, events.c.kind.in_(kinds))
        .order_by(events.c.seq)
        .limit(PAGE)
    )
    return [_line(row) for row in rows]


def unknown_kinds(connection: Connection) -> tuple[str, ...]:
    """Kinds in the log that this version of the software does not know.

    Goes from kind to kind by jumps over the index: as quick in a record of years as in a new one.
    """
    driver = connection.connection.driver_connection
    assert driver is not None
    unknown, kind, version = set(), "", 0
    while found := driver.execute(_NEXT_KIND, (kind, version, kind)).fetchone():
        kind, version = found
        if not is_known(kind, version):
            unknown.add(kind)
    return tuple(sorted(unknown))


def plan_of(connection: Connection, digest: str) -> Plan | None:
    """The plan kept under a digest; raises Broken if it can't be read."""
    data = connection.execute(select(plans.c.bytes).where(plans.c.digest == digest)).scalar()
    try:
        return None if data is None else plan_from_bytes(data)
    except WrongShape as error:
        raise Broken(f"plan {digest[:12]}: {error}") from error


def entry_of(connection: Connection, line: Line, known: dict[str, Plan | None]) -> Entry:
    """The entry of a line, with its plan where a session starts. `known` keeps plans read."""
    try:
        _, entry = decode(line.bytes)
    except NotALine as error:
        raise Broken(f"line {line.seq}: {error}") from error
    if not isinstance(entry.event, SessionStarted):
        return entry
    digest = entry.event.plan
    if digest not in known:
        known[digest] = plan_of(connection, digest)
    return Entry(entry.seq, entry.at, entry.event, known[digest])


def check_pages(connection: Connection) -> None:
    """SQLite's own quick check of the file; raises Broken with what it says first."""
    said = connection.execute(text("PRAGMA quick_check(1)")).scalar()
    if said != "ok":
        raise Broken(f"quick check: {said}")


def is_short(connection: Connection) -> bool:
    """Whether the file is small enough to be checked whole at every opening."""
    pages = int(connection.execute(text("PRAGMA page_count")).scalar() or 0)
    size = int(connection.execute(text("PRAGMA page_size")).scalar() or 0)
    return pages * size <= SHORT_BYTES


def check_tail(connection: Connection, log: str, count: int = TAIL) -> None:
    """Check the chain of the last `count` lines; raises Broken at the first that is amiss."""
    last, begin = head_of(connection, log).seq, begin_of(connection, log)
    first = max(begin.first, last - count + 1)
    before = page_of(connection, log, first - 1, first - 1) if first > begin.first else []
    prev = before[0].hash if before else begin.prev
    seq = first
    while seq <= last:
        for line in page_of(connection, log, seq, last):
            check_line(line, log, seq, prev)
            seq, prev = seq + 1, line.hash
        if not page_of(connection, log, seq, seq) and seq <= last:
            raise Broken(f"line {seq} is missing")


def check_begin(connection: Connection, log: str) -> None:
    """Check where the log begins against the last event that says so; raises Broken."""
    begin, line = begin_of(connection, log), last_of(connection, log, "purged")
    event = decode(line.bytes)[1].event if line else Purged(0, 0, Begin().prev)
    said = (event.last + 1, event.head) if isinstance(event, Purged) else ()
    if said != (begin.first, begin.prev):
        raise Broken(f"begins at line {begin.first}, which no event bears out")


def check_line(line: Line, log: str, seq: int, prev: str) -> None:
    """Check one line against its bytes and the line before; raises Broken."""
    if line.seq != seq:
        raise Broken(f"line {seq} is missing")
    try:
        said, _ = decode(line.bytes)
    except NotALine as error:
        raise Broken(f"line {seq}: {error}") from error
    if said != line:
        raise Broken(f"line {seq} ({line.kind}) is not what its hash and copies say")
    if line.prev != prev:
        raise Broken(f"line {seq} ({line.kind}) does not follow line {seq - 1}")


def check_beside(connection: Connection, head: Head, kept: Head | None) -> None:
    """Check the log against the head kept beside it; raises Broken if lines are gone."""
    if kept is None or kept.log != head.log or kept.seq < begin_of(connection, head.log).first:
        return
    if kept.seq > head.seq:
        raise Broken(f"ends at line {head.seq}; line {kept.seq} had been acknowledged")
    found = page_of(connection, head.log, kept.seq, kept.seq)
    if not found or found[0].hash != kept.hash:
        raise Broken(f"line {kept.seq} is not the one that had been acknowledged")


def _line(row: Any) -> Line:
    return Line._make(row)
