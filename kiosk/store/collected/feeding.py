"""What a kiosk on the school's network sends by itself, and how a collection takes it.

The kiosk's role may only add to `fed`, so it can't ask what is there: it keeps its own place in a
small file beside the record. Sent twice is there once, since a line is keyed by its own hash.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path

from sqlalchemy import Connection, delete, select, tuple_
from sqlalchemy.dialects.postgresql import insert

from kiosk.store.codec import BEFORE_FIRST, Line, NotALine, envelope_of
from kiosk.store.collected.database import Database
from kiosk.store.collected.tables import fed, texts
from kiosk.store.collected.taking import Taking
from kiosk.store.collected.values import Download, Outcome
from kiosk.store.files import beside
from kiosk.store.reading import ReadOnlyRecord

BATCH = 500
PAGE = 20_000
Found = tuple[int, bytes, bytes]


class Feed:
    """Sends the record's lines, in order and each batch in one transaction.

    References only, unless `names` or `notes` are asked for: then those kept apart go along.
    """

    def __init__(
        self, record: Path, database: Database, names: bool = False, notes: bool = False
    ) -> None:
        self._record, self._database = record, database
        self._names, self._notes = names, notes
        self.place = beside(record, ".fed")

    def send(self) -> int:
        """Send what is new; how many lines. Raises CollectFault, RecordFault, FileNotFoundError.

        Whatever happens in between, the next call goes on where the last batch was acknowledged.
        """
        with ReadOnlyRecord(self._record) as record:
            first = max(self._sent(record.log) + 1, record.begin.first)
            if first > record.head[0]:
                return 0
            machine, sent = record.machine(), 0
            with self._database.session() as connection:
                self._send_texts(connection, record)
                for batch in _batches(record.lines(first, record.head[0])):
                    _add(connection, record.log, machine, batch)
                    self._keep(record.log, batch[-1].seq)
                    sent += len(batch)
            return sent

    def _sent(self, log: str) -> int:
        """The last line of this log that was acknowledged; 0 with none, or if nobody knows."""
        try:
            said = json.loads(self.place.read_bytes())
            return int(said["seq"]) if said["log"] == log else 0
        except (OSError, ValueError, KeyError, TypeError):
            return 0

    def _keep(self, log: str, seq: int) -> None:
        part = self.place.with_name(self.place.name + ".part")
        part.write_text(json.dumps({"log": log, "seq": seq}))
        os.replace(part, self.place)

    def _send_texts(self, connection: Connection, record: ReadOnlyRecord) -> None:
        rows = [*(_notes(record) if self._notes else ()), *(_names(record) if self._names else ())]
        if rows:
            with connection.begin():
                named = [{"log": record.log, "what": w, "ref": r, "text": t} for w, r, t in rows]
                connection.execute(insert(texts).on_conflict_do_nothing(), named)


def _notes(record: ReadOnlyRecord) -> Iterator[tuple[str, str, str]]:
    return (("note", note.note, note.text) for note in record.kept().notes)


def _names(record: ReadOnlyRecord) -> Iterator[tuple[str, str, str]]:
    pupils = (pupil for group in record.groups() for pupil in group.pupils)
    yield from (("pupil", pupil.ref, pupil.name) for pupil in pupils if pupil.name)
    yield from (("adult", adult.ref, adult.name) for adult in record.adults())


def _batches(lines: Iterable[Line]) -> Iterator[list[Line]]:
    batch: list[Line] = []
    for line in lines:
        batch.append(line)
        if len(batch) == BATCH:
            yield batch
            batch = []
    if batch:
        yield batch


def _add(connection: Connection, log: str, machine: str, batch: list[Line]) -> None:
    """Add lines; those that are there already stay as they are."""
    rows = [
        {
            "log": log,
            "seq": line.seq,
            "hash": bytes.fromhex(line.hash),
            "machine": machine,
            "bytes": line.bytes,
        }
        for line in batch
    ]
    with connection.begin():
        connection.execute(insert(fed).on_conflict_do_nothing(), rows)


# --- taken in -----------------------------------------------------------------------------------


def take_fed(connection: Connection, taking: Taking) -> Iterator[Outcome]:
    """Take in what kiosks have sent, run by run, and clear it away once it is in."""
    with connection.begin():
        logs = list(connection.execute(select(fed.c.log, fed.c.machine).distinct()))
    for log, machine in logs:
        while page := _page(connection, log, machine):
            for run in runs(page):
                yield _taken(taking, log, machine, run)
                _clear(connection, log, run)


def _page(connection: Connection, log: str, machine: str) -> list[Found]:
    asked = (
        select(fed.c.seq, fed.c.hash, fed.c.bytes)
        .where(fed.c.log == log, fed.c.machine == machine)
        .order_by(fed.c.seq, fed.c.hash)
        .limit(PAGE)
    )
    with connection.begin():
        return [(row.seq, bytes(row.hash), bytes(row.bytes)) for row in connection.execute(asked)]


def runs(found: Iterable[Found]) -> list[list[Found]]:
    """Lines sorted by number, put together to runs in which each follows the one before."""
    done: list[list[Found]] = []
    ends: dict[tuple[int, str], list[Found]] = {}
    for line in found:
        seq, line_hash, data = line
        run = ends.pop((seq - 1, _prev(data)), None)
        if run is None:
            run = []
            done.append(run)
        run.append(line)
        ends[seq, line_hash.hex()] = run
    return done


def _prev(data: bytes) -> str:
    """The hash that a line names as the one before; empty where it is no line."""
    try:
        return str(envelope_of(data)["prev"])
    except (NotALine, ValueError, RecursionError):
        return ""


def _taken(taking: Taking, log: str, machine: str, run: list[Found]) -> Outcome:
    (first, _, data), (last, head, _) = run[0], run[-1]
    key = sha256(b"fed %s %d " % (log.encode(), first) + head).hexdigest()
    of = Download(
        name=f"fed by {machine}, lines {first} to {last}",
        key=key,
        log=log,
        first=first,
        last=last,
        prev=_prev(data) or BEFORE_FIRST,
        head=head.hex(),
        machine=machine,
    )
    return taking.take(of, lambda: (line + b"\n" for _, _, line in run))


def _clear(connection: Connection, log: str, run: list[Found]) -> None:
    named = [(seq, line_hash) for seq, line_hash, _ in run]
    for at in range(0, len(named), PAGE // 4):
        gone = tuple_(fed.c.seq, fed.c.hash).in_(named[at : at + PAGE // 4])
        with connection.begin():
            connection.execute(delete(fed).where(fed.c.log == log, gone))
