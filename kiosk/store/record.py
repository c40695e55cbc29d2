"""The record: the chain of events, the checkpoints of the state, and what may be erased."""

from __future__ import annotations

import secrets
from collections.abc import Iterator, Sequence
from pathlib import Path

from sqlalchemy import Connection, delete, insert
from sqlalchemy.dialects.sqlite import insert as upsert

from kiosk.core.events import Entry, Erased, Purged, SessionStarted
from kiosk.core.kiosk import Kiosk, advance
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Moment
from kiosk.store import queries
from kiosk.store.beside import carry_out
from kiosk.store.checkpoints import Checkpoints, remembered
from kiosk.store.codec import Line, encode
from kiosk.store.connected import Connected
from kiosk.store.engine import writing_engine
from kiosk.store.faults import RecordFault, fault
from kiosk.store.files import (
    Head,
    HeadFile,
    Lock,
    doubt,
    finish_setting_aside,
    make_private,
    set_aside,
)
from kiosk.store.kept import Kept
from kiosk.store.purging import Begin
from kiosk.store.queries import Broken
from kiosk.store.renewing import Old, is_a_record, last_aside, old_record, take_over
from kiosk.store.schema import bring_up
from kiosk.store.shapes import WrongShape, plan_to_bytes
from kiosk.store.tables import begins, events, logs, plans


class Record(Kept):
    """One kiosk's record, open for writing by this process alone.

    `path` is the file; `log` its random id; `schema` the migration it stands at; `journal` is
    `wal` or `truncate`. `after` says how the run before ended: `first`, `clean` or `cut`.
    `unknown` names kinds of event that this version does not know. `set_aside` is where a damaged
    record lies now, if this opening found one. Safe to call from several threads.
    """

    def __init__(self, path: Path, lock: Lock, journal: str) -> None:
        """For `open` only; it leaves nothing behind if it raises."""
        self.path, self._lock = path, lock
        self.set_aside: Path | None = None
        make_private(path)
        self._connected = Connected(path, writing_engine(path, journal))
        self._head_file = HeadFile(path)
        self._checkpoints = Checkpoints(self._plan_now)
        self._in: Connection | None = None
        self._next_begin: Begin | None = None
        try:
            with self._connected.transaction() as connection:
                self._look(connection)
        except BaseException:
            self._connected.close()
            raise
        self._connected.check_anew(self._look_again)
        self._head_file.write(self._head)

    @classmethod
    def open(
        cls, path: Path, now: Moment | None = None, journal: str = "wal", renew: bool = True
    ) -> Record:
        """Open the record, or make it; raises RecordFault.

        A damaged record is set aside, and a new log begins with a pointer to its head and with
        the adults, levels and out-of-use that could still be read. `now` is the time of that
        pointer; without it, the last time the old record knows. With `renew` false a damaged
        record is left as it is and raises.
        """
        path = Path(path).absolute()
        lock = Lock(path)
        try:
            return cls._open(path, lock, now, journal, renew)
        except BaseException:
            lock.release()
            raise

    @classmethod
    def _open(cls, path: Path, lock: Lock, now: Moment | None, journal: str, renew: bool) -> Record:
        aside = finish_setting_aside(path)
        if not is_a_record(path):
            raise fault("damaged", path, "not a record of a kiosk; it was left as it is")
        try:
            record = cls(path, lock, journal)
        except RecordFault as found:
            if found.why != "damaged" or not renew:
                raise
            aside = set_aside(path)
            record = cls(path, lock, journal)
        if record.head[0] == 0 and (aside or last_aside(path)):
            record.set_aside = aside or last_aside(path)
            assert record.set_aside is not None
            record._take_over(old_record(record.set_aside), now)
        return record

    def _look(self, connection: Connection) -> None:
        """What opening checks and finds out."""
        self.schema = bring_up(connection)
        if amiss := doubt(self.path):
            raise Broken(amiss)
        if queries.is_short(connection):
            queries.check_pages(connection)
        self.journal = str(connection.exec_driver_sql("PRAGMA journal_mode").scalar())
        self.log = queries.log_of(connection) or _begin_log(connection)
        queries.check_tail(connection, self.log)
        queries.check_begin(connection, self.log)
        self.begin = queries.begin_of(connection, self.log)
        self._head = queries.head_of(connection, self.log)
        queries.check_beside(connection, self._head, self._head_file.read())
        self.unknown = queries.unknown_kinds(connection)
        self.after = _after(connection, self.log)

    def _look_again(self, connection: Connection) -> None:
        """What is checked when the connection had to be opened anew after a fault."""
        if queries.is_short(connection):
            queries.check_pages(connection)
        queries.check_beside(connection, queries.head_of(connection, self.log), self._head)
        self._checkpoints.forget()

    @property
    def head(self) -> tuple[int, str]:
        """Number and hash of the last line; 0 and zeros while there is none."""
        return self._head.seq, self._head.hash

    def append(self, entries: Sequence[Entry], kiosk: Kiosk, plan: Plan | None = None) -> None:
        """Add entries, and the state after them, in one transaction; raises RecordFault.

        The entries are numbered on from `head`. A session's start comes with its plan, in `plan`
        or in its entry. When this returns they are on the card. When it raises, none of them
        counts, and the same entries (with more after them) may be handed in again: what a failing
        card had taken after all is recognised.
        """
        if not entries:
            return
        lines = self._chained(entries)
        head = Head(self.log, lines[-1].seq, lines[-1].hash)
        with self._connected.transaction() as connection:
            self._in = connection
            _keep_plans(connection, entries, plan)
            new = self._not_there_yet(connection, lines)
            if new:
                connection.execute(
                    insert(events), [{"log": self.log, **line._asdict()} for line in new]
                )
            self._checkpoints.write(connection, kiosk, head.seq, head.hash)
            begin = self._carry_out(connection, entries)
        self.begin = begin
        self._checkpoints.written(kiosk)
        self._head = head
        self._head_file.write(head)
        if any(isinstance(entry.event, Erased | Purged) for entry in entries):
            self._connected.wipe()

    def prepare(self, begin: Begin) -> Purged:
        """Get ready for the log to begin there: the event that, appended, makes it so."""
        self._next_begin = begin
        return Purged(self.begin.first, begin.first - 1, begin.prev)

    def _carry_out(self, connection: Connection, entries: Sequence[Entry]) -> Begin:
        """Do what events take away or in, in their own transaction; where the log begins."""
        begin = self.begin
        for entry in entries:
            carry_out(connection, entry.event, self._lists)
            if isinstance(entry.event, Purged):
                begin = self._cut(connection, entry.event)
        return begin

    def _cut(self, connection: Connection, purged: Purged) -> Begin:
        begin = self._next_begin
        if begin is None or (begin.first, begin.prev) != (purged.last + 1, purged.head):
            raise ValueError(f"{purged} was not prepared")
        put = upsert(begins).values(log=self.log, **begin._asdict())
        connection.execute(put.on_conflict_do_nothing())
        old = (events.c.log == self.log) & (events.c.seq < begin.first)
        connection.execute(delete(events).where(old))
        return begin

    def _chained(self, entries: Sequence[Entry]) -> list[Line]:
        lines: list[Line] = []
        seq, prev = self.head
        for entry in entries:
            seq += 1
            if entry.seq != seq:
                raise ValueError(f"entry number {entry.seq}; the next one is {seq}")
            lines.append(encode(self.log, prev, entry))
            prev = lines[-1].hash
        return lines

    def _not_there_yet(self, connection: Connection, lines: list[Line]) -> list[Line]:
        """The lines not on the card yet: a commit that failed may have been taken after all."""
        stored = queries.head_of(connection, self.log)
        if stored == self._head:
            return lines
        taken = [line for line in lines if line.seq <= stored.seq]
        if not taken or taken[-1].hash != stored.hash:
            raise fault("failing", self.path, f"line {stored.seq} is not from this kiosk")
        return lines[len(taken) :]

    def entries(self, first: int = 1, last: int | None = None) -> Iterator[Entry]:
        """The entries `first` to `last` in order, a page at a time; starts have their plans.

        They begin where the log does, if that is later.
        """
        known: dict[str, Plan | None] = {}
        first = max(first, self.begin.first)
        until = self.head[0] if last is None else min(last, self.head[0])
        while first <= until:
            with self._connected.transaction() as connection:
                lines = queries.page_of(connection, self.log, first, until)
                page = [queries.entry_of(connection, line, known) for line in lines]
            yield from page
            if not page:
                return
            first = page[-1].seq + 1

    def machine(self) -> str:
        """The machine that the last start of the kiosk named."""
        with self._connected.transaction() as connection:
            return queries.machine_of(connection, self.log)

    def restore(self) -> Kiosk:
        """The state after the last line: from the checkpoints, or folded from the log."""
        with self._connected.transaction() as connection:
            self._in = connection
            kiosk = self._checkpoints.read(connection, *self.head)
        if kiosk is None:
            return self.rebuild()
        self._checkpoints.written(kiosk)
        return remembered(kiosk)

    def rebuild(self) -> Kiosk:
        """The state folded from the whole log, whatever the checkpoints say."""
        self._checkpoints.forget()
        kiosk = self.begin.kiosk()
        for entry in self.entries():
            if isinstance(entry.event, SessionStarted) and entry.plan is None:
                raise fault("damaged", self.path, f"the plan of line {entry.seq} is missing")
            kiosk = advance(kiosk, entry)
        return remembered(kiosk)

    def _plan_now(self, digest: str) -> Plan:
        """The plan a checkpoint names, read in the transaction that is open."""
        assert self._in is not None
        try:
            plan = queries.plan_of(self._in, digest)
        except Broken as error:
            raise WrongShape(str(error)) from error
        if plan is None:
            raise WrongShape(f"plan {digest[:12]} is missing")
        return plan

    def _take_over(self, old: Old, now: Moment | None) -> None:
        """Begin the new log with the pointer to the old one and what could be read of it."""
        with self._connected.transaction() as connection:
            self.unknown = queries.unknown_kinds(connection)
            old.copy_people(connection)
        entries, kiosk = take_over(old, now)
        self.append(entries, kiosk)
        self.after = "cut"

    def close(self) -> None:
        """Close, and let another process write. May be called twice."""
        self._connected.close()
        self._head_file.close()
        self._lock.release()


def _begin_log(connection: Connection) -> str:
    log = secrets.token_hex(16)
    connection.execute(insert(logs).values(log=log))
    return log


def _after(connection: Connection, log: str) -> str:
    """How the run before ended. Commands write between runs, so only starts and stops count."""
    last = queries.last_of(connection, log, "kiosk_started", "kiosk_stopped")
    if last is not None:
        return "clean" if last.kind == "kiosk_stopped" else "cut"
    return "cut" if queries.last_of(connection, log, "record_renewed") else "first"


def _keep_plans(connection: Connection, entries: Sequence[Entry], plan: Plan | None) -> None:
    given = {p.digest: p for p in (plan, *(entry.plan for entry in entries)) if p is not None}
    for digest, one in given.items():
        put = upsert(plans).values(digest=digest, bytes=plan_to_bytes(one))
        connection.execute(put.on_conflict_do_nothing())
    for entry in entries:
        if isinstance(entry.event, SessionStarted) and entry.event.plan not in given:
            raise ValueError(f"entry {entry.seq} starts a session; its plan was not handed in")
