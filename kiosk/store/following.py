"""Stored lines to entries, quickly, with an eye on the chain: for reports over whole records.

A line is canonical JSON, so its shape is fixed: the parts of many lines are found at once without
a parse, and equal bodies become one event. Where all lines of a block follow each other, that is
seen for the whole block; else they are looked at singly, and a line of another shape is decoded.
"""

from __future__ import annotations

import json
import re
from array import array
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from hashlib import sha256

from kiosk.core.events import Entry, Event, SessionStarted
from kiosk.core.plan.shape import Plan
from kiosk.core.report import ChainFault
from kiosk.core.units import Moment
from kiosk.store.codec import NotALine, UnknownKind, decode, event_of

_ROW = re.compile(
    r'^\{"body":(\{[^}]*\}),"boot":"([^"]*)","kind":"([^"]*)","log":"[^"]*","prev":"(.{64})"'
    r',"quality":([0-9]),"seq":([0-9]+),"us":([0-9]+),"v":([0-9]+),"wall_us":(-?[0-9]+)\}$',
    re.MULTILINE,
)
Row = tuple[str, str, str, str, str, str, str, str, str]
"""The parts of a line: body, boot, kind, prev, quality, seq, us, v, wall_us."""
PREV, SEQ = 3, 5
MOST_KNOWN = 20_000
PREFIX = 16  # hexadecimal digits of a hash that are kept to know a line again


class Following:
    """Takes one log's lines in order and gives its entries; afterwards `faults` says what is amiss.

    The same lines again, from an overlapping download, are passed over. Other lines under numbers
    already seen are a fork: they happened too, and are given as well.
    """

    def __init__(
        self, plan_of: Callable[[str], Plan | None] = lambda _: None, overlaps: bool = True
    ) -> None:
        """`overlaps`: whether lines may come again; then a part of each hash is kept."""
        self._plan_of, self._overlaps = plan_of, overlaps
        self._events: dict[tuple[str, str, str], Event] = {}
        self._plans: dict[str, Plan | None] = {}
        self._boots: dict[str, str] = {}
        self._seen = array("Q")
        self._next = 0
        self._hash = ""
        self._faults: list[ChainFault] = []

    def entries(self, blocks: Iterable[bytes]) -> Iterator[Entry]:
        """The entries of lines that were not seen before; each block holds whole lines."""
        for block in filter(None, blocks):
            lines = block.removesuffix(b"\n").split(b"\n")
            rows = _rows(block)
            if len(rows) == len(lines) and self._all_follow(rows, lines):
                yield from self._made(rows)
            else:
                for line in lines:
                    yield from self._singly(line)

    def faults(self) -> tuple[ChainFault, ...]:
        """What was found amiss."""
        return tuple(self._faults)

    def _all_follow(self, rows: Sequence[Row], lines: Sequence[bytes]) -> bool:
        """Whether each line follows the one before; if so they are kept as seen."""
        first = int(rows[0][SEQ])
        if self._next and (first != self._next or rows[0][PREV] != self._hash):
            return False
        hashes = [sha256(line).hexdigest() for line in lines]
        numbers = [int(row[SEQ]) for row in rows]
        if numbers != list(range(first, first + len(rows))):
            return False
        if [row[PREV] for row in rows[1:]] != hashes[:-1]:
            return False
        if self._overlaps:
            self._seen.extend([int(each[:PREFIX], 16) for each in hashes])
        self._next, self._hash = first + len(rows), hashes[-1]
        return True

    def _made(self, rows: Iterable[Row]) -> Iterator[Entry]:
        """The entries of rows that are to be given.

        Both values are filled in as `core.values` does: what a frozen dataclass does in its
        `__init__` would take as long as all else here.
        """
        known, named, new = self._events.get, self._boots.setdefault, object.__new__
        for body, boot, kind, _, quality, seq, us, version, wall_us in rows:
            event = known((kind, version, body)) or self._event(kind, version, body)
            at, entry = new(Moment), new(Entry)
            when, what = at.__dict__, entry.__dict__
            when["boot"], when["us"] = named(boot, boot), int(us)
            when["wall_us"], when["quality"] = int(wall_us), int(quality)
            what["seq"], what["at"], what["event"] = int(seq), at, event
            what["plan"] = self._plan(event.plan) if type(event) is SessionStarted else None
            yield entry

    def _singly(self, line: bytes) -> Iterator[Entry]:
        rows = _rows(line)
        if not rows:
            yield from self._slowly(line)
        elif self._is_new(int(rows[0][SEQ]), rows[0][PREV], line):
            yield from self._made(rows)

    def _slowly(self, data: bytes) -> Iterator[Entry]:
        try:
            line, entry = decode(data)
        except NotALine:
            self._amiss("broken", self._next, self._next)
            self._hash = ""
            return
        if self._is_new(line.seq, line.prev, data):
            event = entry.event
            plan = self._plan(event.plan) if isinstance(event, SessionStarted) else None
            yield replace(entry, plan=plan)

    def _is_new(self, seq: int, prev: str, data: bytes) -> bool:
        """Whether the line was not seen before; keeps what is amiss with its place."""
        digest = sha256(data).hexdigest()
        follows = seq == self._next and prev == self._hash
        if not follows and self._next and not self._joins(seq, prev, int(digest[:PREFIX], 16)):
            return False
        if self._overlaps:
            self._seen.append(int(digest[:PREFIX], 16))
        self._next, self._hash = seq + 1, digest
        return True

    def _joins(self, seq: int, prev: str, prefix: int) -> bool:
        """Whether a line that does not follow is to be taken: what is amiss, or seen before."""
        if seq > self._next:
            self._amiss("gap", self._next, seq - 1)
            self._seen.extend([0] * (seq - self._next))
        elif seq == self._next:
            if self._hash:
                self._amiss("broken", seq - 1, seq - 1)
        else:
            return self._forks(seq, prefix)
        return True

    def _forks(self, seq: int, prefix: int) -> bool:
        at = seq - (self._next - len(self._seen))
        if at < 0 or self._seen[at] == prefix:
            return False
        self._amiss("fork", seq, self._next - 1)
        del self._seen[at:]
        return True

    def _amiss(self, what: str, first: int, last: int) -> None:
        self._faults.append(ChainFault(what, first, last))

    def _event(self, kind: str, version: str, body: str) -> Event:
        event = _event_of(kind, int(version), body)
        if len(self._events) >= MOST_KNOWN:
            self._events.clear()
        self._events[kind, version, body] = event
        return event

    def _plan(self, digest: str) -> Plan | None:
        if digest not in self._plans:
            self._plans[digest] = self._plan_of(digest)
        return self._plans[digest]


def _event_of(kind: str, version: int, body: str) -> Event:
    """The event of a body; one that is no JSON is carried like a kind that is not known."""
    try:
        return event_of(kind, version, json.loads(body))
    except ValueError:
        return UnknownKind(kind, version, body)


def _rows(block: bytes) -> Sequence[Row]:
    """The parts of each line of the usual shape; none where one holds a backslash or no UTF-8.

    A match begins with a line and ends with one: as many as lines are one for each of them.
    """
    try:
        return () if b"\\" in block else _ROW.findall(block.decode())
    except UnicodeDecodeError:
        return ()
