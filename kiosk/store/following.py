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
from dataclasses import dataclass, replace
from functools import partial
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

Give = Callable[[], Iterable[Entry]]


@dataclass(frozen=True)
class _Held:
    """A line that is not as seen before; `give` makes its entry."""

    seq: int
    hash: str
    give: Give

    @property
    def prefix(self) -> int:
        return _prefix(self.hash)


class Following:
    """Takes one log's lines in order and gives its entries; afterwards `faults` says what is amiss.

    The same lines again, from an overlapping download, are passed over. Other lines under numbers
    already seen are a fork: they happened too, and are given as well. A damaged line is named once:
    of two that do not fit, the later one if the one after it does not fit it either.
    """

    def __init__(
        self, plan_of: Callable[[str], Plan | None] = lambda _: None, overlaps: bool = True
    ) -> None:
        """`overlaps`: whether lines may come again; then a part of each hash is kept."""
        self._plan_of, self._overlaps = plan_of, overlaps
        self._events: dict[tuple[str, str, str], Event] = {}
        self._plans: dict[str, Plan | None] = {}
        self._boots: dict[str, str] = {}
        self._seen = array("Q")  # of each line up to the last; 0 where it is not there
        self._next, self._hash = 0, ""  # what carries on the last line
        self._at, self._looked = 0, ""  # the number after the line looked at last, and its hash
        self._lost = 0  # lines since then that can't be read
        self._doubt = 0  # the line that did not fit the one blamed last
        self._first = 0  # the number that the next line must have
        self._held: _Held | None = None
        self._faults: list[ChainFault] = []

    def entries(self, blocks: Iterable[bytes]) -> Iterator[Entry]:
        """The entries of lines that were not seen before; each block holds whole lines."""
        for block in filter(None, blocks):
            lines = block.removesuffix(b"\n").split(b"\n")
            rows = _rows(block)
            is_plain = len(rows) == len(lines) and not (self._held or self._lost)
            if is_plain and self._all_follow(rows, lines):
                yield from self._made(rows)
            else:
                for line in lines:
                    yield from self._singly(line)
        yield from self._settled("", False)
        self._name_lost(self._at + self._lost)

    def begins(self, first: int) -> None:
        """The next line is said to have that number."""
        self._at, self._looked, self._first = first, "", first

    def ends(self, last: int, head: str) -> None:
        """The lines so far are said to end here: with that number and that hash."""
        if self._held and self._held.seq == last and self._held.hash != head:
            self._amiss("broken", last, last)
            self._held = None
        self._name_lost(last + 1)
        self._next = self._next or self._at
        if self._at <= last and self._next <= last:
            self._gap(last + 1)
        elif self._at == last + 1 and self._looked not in ("", head):
            self._blame(last)

    def faults(self) -> tuple[ChainFault, ...]:
        """What was found amiss; lines missing from one download that came with another are not."""
        return tuple(f for f in self._faults if f.what != "gap" or not self._is_filled(f))

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
            self._seen.extend([_prefix(each) for each in hashes])
        self._next, self._hash = first + len(rows), hashes[-1]
        self._at, self._looked, self._first = self._next, self._hash, 0
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
        if rows:
            give = partial(self._made, rows)
            yield from self._take(int(rows[0][SEQ]), rows[0][PREV], line, give)
        else:
            yield from self._slowly(line)

    def _slowly(self, data: bytes) -> Iterator[Entry]:
        try:
            line, entry = decode(data)
        except NotALine:
            self._lost += 1
            return
        yield from self._take(line.seq, line.prev, data, partial(self._planned, entry))

    def _planned(self, entry: Entry) -> Iterator[Entry]:
        event = entry.event
        plan = self._plan(event.plan) if isinstance(event, SessionStarted) else None
        yield replace(entry, plan=plan)

    def _take(self, seq: int, prev: str, data: bytes, give: Give) -> Iterator[Entry]:
        """The entry of a line, unless it was seen before; keeps what is amiss with its place."""
        digest = sha256(data).hexdigest()
        yield from self._settled(digest, seq == self._next and prev == self._hash)
        self._name_lost(seq)
        seq = self._numbered(seq, prev)
        self._at, self._looked, self._first = seq + 1, digest, 0
        if seq < self._next:
            yield from self._behind(_Held(seq, digest, give))
        else:
            self._join(seq, prev)
            self._keep(seq, digest)
            yield from give()

    def _numbered(self, seq: int, prev: str) -> int:
        """The number of a line; where it is another by all else, that one."""
        must = self._first or (self._next if prev == self._hash else seq)
        if must != seq:
            self._amiss("broken", must, must)
        return must

    def _join(self, seq: int, prev: str) -> None:
        """Says what is amiss before a line that was not seen yet."""
        if self._next and seq > self._next:
            self._gap(seq)
        elif self._hash and prev != self._hash:
            self._blame(seq - 1)

    def _gap(self, until: int) -> None:
        """The lines before `until` that are not there."""
        self._amiss("gap", self._next, until - 1)
        self._pass_over(until)

    def _pass_over(self, until: int) -> None:
        self._seen.extend([0] * (until - self._next))
        self._next, self._hash = until, ""

    def _keep(self, seq: int, digest: str) -> None:
        if self._overlaps:
            self._seen.append(_prefix(digest))
        self._next, self._hash = seq + 1, digest

    def _behind(self, line: _Held) -> Iterator[Entry]:
        """A line under a number that was passed: seen before, missed until now, or held."""
        at = self._index(line.seq)
        if at < 0 or self._seen[at] == line.prefix:
            return
        if self._seen[at]:
            self._held = line
        else:
            self._seen[at] = line.prefix
            yield from line.give()

    def _settled(self, digest: str, follows: bool) -> Iterator[Entry]:
        """What was held is one damaged line if the next one is as seen before, else a fork."""
        held, self._held = self._held, None
        if held is None:
            return
        at = self._index(held.seq)
        if follows or (digest and list(self._seen[at + 1 : at + 2]) == [_prefix(digest)]):
            self._amiss("broken", held.seq, held.seq)
            return
        self._amiss("fork", held.seq, self._next - 1)
        del self._seen[at:]
        self._keep(held.seq, held.hash)
        yield from held.give()

    def _name_lost(self, seq: int) -> None:
        """Names the lines before `seq` that could not be read, as one."""
        if not self._lost:
            return
        first = self._at or max(seq - self._lost, 1)
        last = max(first, min(first + self._lost, seq) - 1)
        self._lost = self._first = 0
        self._amiss("broken", first, last)
        if first == self._next and last < seq:
            self._pass_over(last + 1)

    def _blame(self, seq: int) -> None:
        """The line after this one does not fit it."""
        if self._doubt == seq:
            self._faults.pop()
            self._amiss("broken", seq, seq)
            self._doubt = 0
        else:
            self._amiss("broken", seq, seq)
            self._doubt = seq + 1

    def _index(self, seq: int) -> int:
        return seq - (self._next - len(self._seen))

    def _is_filled(self, gap: ChainFault) -> bool:
        at, lines = self._index(gap.first), gap.last - gap.first + 1
        there = self._seen[at : at + lines] if at >= 0 else ()
        return len(there) == lines and all(there)

    def _amiss(self, what: str, first: int, last: int) -> None:
        fault = ChainFault(what, first, last)
        if fault not in self._faults:
            self._faults.append(fault)

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


def _prefix(digest: str) -> int:
    return int(digest[:PREFIX], 16)


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
