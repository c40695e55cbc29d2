"""The lines of a download judged one by one, and made rows: nothing unproven reaches a table.

Each line must be canonical, have the next number, and name the hash of the line before; the last
one's hash is the head that the download's list names. Lines are known by the fixed shape that
canonical JSON gives them; one of another shape goes the long way, which says what is wrong.
"""

from __future__ import annotations

import json
import re
from binascii import hexlify
from collections.abc import Iterable, Iterator
from hashlib import sha256
from itertools import chain, islice

from kiosk.core.plan.shape import canonical
from kiosk.store.codec import NotALine, envelope_of
from kiosk.store.collected.values import MOST, Download, Remark, Row

_HEAD = re.compile(
    rb'\{"body":(\{.*\}),"boot":"[ !#-\[\]-~]*","kind":"([a-z_]{1,60})","log":"([A-Za-z0-9]*)"'
)
_PREV = b',"prev":"'
_TAIL = re.compile(
    rb'","quality":([012]),"seq":([1-9]\d{0,15}),"us":(?:0|[1-9]\d{0,15})'
    rb',"v":(0|[1-9]\d{0,3}),"wall_us":(0|-?[1-9]\d{0,15})\}\n'
)
_WORD = re.compile("[a-z_]{1,60}")
KNOWN = 50_000
BATCH = 300


class Refused(Exception):
    """A download can't be taken in; `remark` says which line is amiss and why."""

    def __init__(self, remark: Remark) -> None:
        super().__init__(remark.text)
        self.remark = remark


class Judge:
    """Goes through the lines of one download in order; raises Refused at the first that is amiss.

    `bodies` keeps bodies found good, since most come again; it may serve many downloads.
    """

    def __init__(self, download: Download, bodies: set[bytes] | None = None) -> None:
        self._of = download
        self._bodies = set() if bodies is None else bodies
        self._heads: dict[bytes, str] = {}

    def rows(self, lines: Iterable[bytes]) -> Iterator[Row]:
        """The rows of the lines, each with its line feed; all of them proven once it is through."""
        return chain.from_iterable(self.batches(lines))

    def batches(self, lines: Iterable[bytes]) -> Iterator[list[Row]]:
        """The same, so many at a time as cost little to hand on."""
        of, waiting = self._of, iter(lines)
        seq, end = of.first, bytes.fromhex(of.prev)
        while batch := self._batch(islice(waiting, BATCH), seq, end):
            yield batch
            seq, end = batch[-1].seq + 1, batch[-1].hash
        if seq - 1 != of.last or end.hex() != of.head:
            raise self.refused(seq - 1, f"the download was to end with line {of.last} and its head")

    def _batch(self, lines: Iterable[bytes], seq: int, end: bytes) -> list[Row]:
        """Rows of lines of which the first has a number and follows a hash."""
        heads, of_tail, prev, batch = self._heads, _TAIL.fullmatch, hexlify(end), []
        for line in lines:
            head, _, tail = line.rpartition(_PREV)
            kind = heads.get(head) or self._head(head, seq)
            found = of_tail(tail, 64) if kind and tail.startswith(prev) else None
            if found is None:
                row = self._slowly(line, seq, end)
            else:
                quality, number, v, wall_us = map(int, found.groups())
                if number != seq:
                    raise self.refused(seq, f"it is numbered {number}")
                data = line[:-1]
                row = Row(seq, sha256(data).digest(), end, wall_us, quality, kind, v, data)
            batch.append(row)
            seq, end = seq + 1, row.hash
            prev = hexlify(end)
        return batch

    def refused(self, seq: int, why: str) -> Refused:
        """The refusal of the whole download for one of its lines."""
        text = f"line {seq} is not what was recorded: {why}"
        return Refused(Remark("broken", self._of.log, seq, seq, text))

    def _head(self, head: bytes, seq: int) -> str:
        """The kind of a line that begins so, kept for the next; empty if it is of another shape."""
        found = _HEAD.fullmatch(head)
        if found is None:
            return ""
        body, kind, log = found.groups()
        if log.decode() != self._of.log:
            raise self.refused(seq, _elsewhere(log.decode(), seq, self._of.log))
        if body not in self._bodies:
            self._keep(body, seq)
        if len(self._heads) >= KNOWN:
            self._heads.clear()
        return self._heads.setdefault(head, kind.decode())

    def _keep(self, body: bytes, seq: int) -> None:
        try:
            good = canonical(json.loads(body)) == body
        except (ValueError, RecursionError):
            good = False
        if not good:
            raise self.refused(seq, "its body is not in canonical form (RFC 8785)")
        if len(self._bodies) >= KNOWN:
            self._bodies.clear()
        self._bodies.add(body)

    def _slowly(self, line: bytes, seq: int, end: bytes) -> Row:
        """A line of another shape: the row of it, or what is wrong with it."""
        if not line.endswith(b"\n"):
            raise self.refused(seq, "its line has no end")
        try:
            said = envelope_of(line[:-1])
            before = bytes.fromhex(said["prev"])
        except (NotALine, ValueError, RecursionError) as error:
            raise self.refused(seq, str(error) or "too deep to read") from None
        if said["log"] != self._of.log or said["seq"] != seq:
            raise self.refused(seq, _elsewhere(said["log"], said["seq"], self._of.log))
        if before != end:
            raise self.refused(seq, f"it does not follow line {seq - 1}")
        _within(said, lambda why: self.refused(seq, why))
        line_hash = sha256(line[:-1]).digest()
        clock = (said["wall_us"], said["quality"])
        return Row(seq, line_hash, before, *clock, said["kind"], said["v"], line[:-1])


def _elsewhere(log: str, seq: int, wanted: str) -> str:
    return f"from record {log[:8]}" if log != wanted else f"it is numbered {seq}"


def _within(said: dict[str, object], refused: object) -> None:
    """What a table's columns can hold; raises Refused."""
    limits = {"wall_us": (-MOST, MOST), "us": (0, MOST), "quality": (0, 2), "v": (0, 9999)}
    for name, (least, most) in limits.items():
        value = said[name]
        if not isinstance(value, int) or not least <= value <= most:
            raise refused(f"{name} is {str(value)[:24]}; allowed: {least} to {most}")  # type: ignore[operator]
    if not _WORD.fullmatch(str(said["kind"])):
        raise refused(f"kind is {str(said['kind'])[:24]!r}; allowed: small letters and _")  # type: ignore[operator]
    if len(str(said["prev"])) != 64:
        raise refused("prev is no hash")  # type: ignore[operator]
