"""What lines tell the collected copy to do, and what is kept of a download that was refused."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, delete, func, insert, select, update
from sqlalchemy.dialects.postgresql import insert as upsert

from kiosk.store.collected.standing import Stretch
from kiosk.store.collected.tables import aside, branches, events, stretches, texts
from kiosk.store.collected.values import Download, Remark, Row

TELLING = frozenset(("purged", "erased", "record_renewed"))
"""Kinds of event that ask something of the collected copy too."""

COPY_ASIDE = "COPY aside_lines (key, place, bytes) FROM STDIN BINARY"


def obey(connection: Connection, log: str, telling: Iterable[Row]) -> Iterator[Remark]:
    """Carry out what the lines tell: erasures, what was kept long enough, a renewed record."""
    for row in telling:
        match row.kind, json.loads(row.bytes)["body"]:
            case "erased", {"what": str(what), "ref": str(ref)}:
                _erase(connection, log, what, ref)
            case "purged", {"last": int(last), "head": str()} if last < row.seq:
                _purge(connection, log, last)
            case "record_renewed", {"log": str(before), "last": int(last)}:
                text = f"carries on record {before[:8]} from line {last}, which was damaged"
                yield Remark("renewed", log, row.seq, row.seq, text)


def _erase(connection: Connection, log: str, what: str, ref: str) -> None:
    named = (texts.c.log == log) & (texts.c.what == what) & (texts.c.ref == ref)
    connection.execute(delete(texts).where(named))


def _purge(connection: Connection, log: str, last: int) -> None:
    """What the kiosk has kept long enough is not kept here either, in no branch of its log."""
    numbers = list(
        connection.execute(select(branches.c.number).where(branches.c.log == log)).scalars()
    )
    for number in numbers:
        _cut(connection, number, last)
    old = events.c.number.in_(numbers) & (events.c.seq <= last)
    connection.execute(delete(events).where(old))
    from_now = func.greatest(branches.c.kept_from, last + 1)
    connection.execute(
        update(branches).where(branches.c.number.in_(numbers)).values(kept_from=from_now)
    )


def _cut(connection: Connection, number: int, last: int) -> None:
    """Take the stretches up to a line away, and shorten the one that goes on after it."""
    gone = (stretches.c.number == number) & (stretches.c.first <= last)
    left = connection.execute(select(stretches).where(gone, stretches.c.last > last)).first()
    connection.execute(delete(stretches).where(gone))
    if left is not None:
        asked = select(events.c.hash).where(events.c.number == number, events.c.seq == last)
        prev = bytes(connection.execute(asked).scalar_one()).hex()
        now = Stretch(number, last + 1, left.last, prev, left.head)
        connection.execute(insert(stretches).values(**now._asdict()))


def keep_aside(
    connection: Connection, of: Download, lines: Callable[[], Iterable[bytes]], remark: Remark
) -> None:
    """Keep a refused download as it came, with the reason; nothing of it counts.

    It is kept once, by list and lines: a sound copy of the same download is still taken in.
    """
    digest = sha256(of.key.encode())
    for line in lines():
        digest.update(line)
    row = {
        "key": digest.hexdigest(),
        "log": plain(of.log),
        "name": plain(of.name),
        "what": remark.what,
        "seq": remark.first,
        "text": plain(remark.text),
    }
    put = upsert(aside).values(**row).on_conflict_do_nothing().returning(aside.c.key)
    if connection.execute(put).first() is None:
        return
    driver: Any = connection.connection.driver_connection
    with driver.cursor().copy(COPY_ASIDE) as copy:
        copy.set_types(("text", "int8", "bytea"))
        for place, line in enumerate(lines(), 1):
            copy.write_row((row["key"], place, line))


def plain(text: str) -> str:
    """A text that PostgreSQL can hold: without NUL and lone surrogates."""
    return text.replace("\0", "").encode("utf-8", "replace").decode()
