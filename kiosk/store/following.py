"""Stored lines to entries, quickly, with an eye on the chain: for reports over whole records.

A line is canonical JSON, so its shape is fixed and its parts are found without a full parse; equal
bodies become one event. A line of another shape goes the long way, through `decode`.
"""

from __future__ import annotations

import json
import re
from array import array
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from hashlib import sha256

from kiosk.core.events import Entry, Event, SessionStarted
from kiosk.core.plan.shape import Plan
from kiosk.core.report import ChainFault
from kiosk.core.units import Moment
from kiosk.store.codec import NotALine, decode, event_of

_SHAPE = re.compile(
    rb'\{"body":(\{.*\}),"boot":"([^"\\]*)","kind":"([a-z_]+)","log":"[^"\\]*","prev":"([0-9a-f]{64})"'
    rb',"quality":(\d),"seq":(\d+),"us":(\d+),"v":(\d+),"wall_us":(-?\d+)\}'
)
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
        self._events: dict[tuple[bytes, bytes, bytes], Event] = {}
        self._plans: dict[str, Plan | None] = {}
        self._boots: dict[bytes, str] = {}
        self._seen = array("Q")
        self._next = 0
        self._hash = b""
        self._faults: list[ChainFault] = []

    def entries(self, lines: Iterable[bytes]) -> Iterator[Entry]:
        """The entries of lines that were not seen before."""
        shape, known, boots = _SHAPE.fullmatch, self._events.get, self._boots
        for data in lines:
            found = shape(data)
            if found is None:
                yield from self._slowly(data)
                continue
            body, boot, kind, prev, quality, seq, us, version, wall_us = found.groups()
            number = int(seq)
            if not self._is_new(number, prev, data):
                continue
            event = known((kind, version, body)) or self._event(kind, version, body)
            name = boots.get(boot) or boots.setdefault(boot, boot.decode())
            at = Moment(name, int(us), int(wall_us), int(quality))
            plan = self._plan(event.plan) if type(event) is SessionStarted else None
            yield Entry(number, at, event, plan)

    def faults(self) -> tuple[ChainFault, ...]:
        """What was found amiss."""
        return tuple(self._faults)

    def _slowly(self, data: bytes) -> Iterator[Entry]:
        try:
            line, entry = decode(data)
        except NotALine:
            self._amiss("broken", self._next, self._next)
            self._hash = b""
            return
        if self._is_new(line.seq, line.prev.encode(), data):
            event = entry.event
            plan = self._plan(event.plan) if isinstance(event, SessionStarted) else None
            yield replace(entry, plan=plan)

    def _is_new(self, seq: int, prev: bytes, data: bytes) -> bool:
        """Whether the line was not seen before; keeps what is amiss with its place."""
        digest = sha256(data).hexdigest()
        follows = seq == self._next and prev == self._hash
        if not follows and self._next and not self._joins(seq, prev, int(digest[:PREFIX], 16)):
            return False
        if self._overlaps:
            self._seen.append(int(digest[:PREFIX], 16))
        self._next, self._hash = seq + 1, digest.encode()
        return True

    def _joins(self, seq: int, prev: bytes, prefix: int) -> bool:
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

    def _event(self, kind: bytes, version: bytes, body: bytes) -> Event:
        event = event_of(kind.decode(), int(version), json.loads(body))
        if len(self._events) >= MOST_KNOWN:
            self._events.clear()
        self._events[kind, version, body] = event
        return event

    def _plan(self, digest: str) -> Plan | None:
        if digest not in self._plans:
            self._plans[digest] = self._plan_of(digest)
        return self._plans[digest]
