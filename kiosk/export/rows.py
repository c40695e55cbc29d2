"""A stored line as people read it in a spreadsheet. A view: the bytes are the evidence."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from types import MappingProxyType
from typing import Any, NamedTuple, Protocol

from kiosk.core.report import corrected
from kiosk.core.units import Moment

CLOCKS = ("not set", "runs on from before", "synchronised")
TRIGGERS = ("=", "+", "-", "@", "\t", "\r")
"""First letters that make a spreadsheet take a text for a formula (OWASP, CSV injection)."""


class StoredLine(Protocol):
    """What the record hands over for each line."""

    @property
    def seq(self) -> int: ...
    @property
    def wall_us(self) -> int: ...
    @property
    def quality(self) -> int: ...
    @property
    def prev(self) -> str: ...
    @property
    def hash(self) -> str: ...
    @property
    def bytes(self) -> bytes: ...


class StoredLines(Protocol):
    """A stretch of the record that can be gone through again and again."""

    def __iter__(self) -> Iterator[StoredLine]: ...

    def blocks(self) -> Iterator[bytes]:
        """The bytes of the lines, many at a time, each line ended by a line feed."""


class Row(NamedTuple):
    """One line of the spreadsheets; the field names are the columns."""

    entry: int
    time_utc: str
    time_local: str
    clock: str
    corrected_utc: str
    event: str
    details: str
    boot: str
    since_boot_s: float
    hash: str


def row_of(line: StoredLine, offsets: Mapping[str, int] = MappingProxyType({})) -> Row:
    """The spreadsheet row of a stored line.

    `offsets` are those of the report: with them the time of a line whose clock was not yet
    synchronised is also given as it must have been.
    """
    said = json.loads(line.bytes)
    at = Moment(said["boot"], said["us"], line.wall_us, line.quality)
    better = corrected(at, offsets)
    clock = CLOCKS[line.quality] if line.quality in range(len(CLOCKS)) else str(line.quality)
    return Row(
        line.seq,
        utc(line.wall_us),
        local(line.wall_us),
        clock,
        "" if better is None else utc(better),
        said_plainly(said["kind"]),
        details(said["body"]),
        said["boot"],
        said["us"] / 1_000_000,
        line.hash,
    )


def details(body: Mapping[str, Any]) -> str:
    """The fields of an event in one line."""
    return "; ".join(f"{said_plainly(name)}: {_text(value)}" for name, value in body.items())


def _text(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(map(str, value))
    return str(value)


def said_plainly(word: str) -> str:
    """A stored word as it is read: `hole_drilled` as `hole drilled`."""
    return word.replace("_", " ")


def guarded(text: str) -> str:
    """A text that no spreadsheet takes for a formula: one that might be gets a ' before it."""
    return f"'{text}" if text.startswith(TRIGGERS) else text


def utc(wall_us: int) -> str:
    """A wall clock in UTC to the second; empty if it is out of every calendar."""
    moment = _moment(wall_us)
    return moment.strftime("%Y-%m-%d %H:%M:%S") if moment else ""


def local(wall_us: int) -> str:
    """A wall clock in the local time of this computer."""
    moment = _moment(wall_us)
    return moment.astimezone().strftime("%Y-%m-%d %H:%M:%S") if moment else ""


def _moment(wall_us: int) -> datetime | None:
    try:
        return datetime.fromtimestamp(wall_us / 1_000_000, UTC)
    except (ValueError, OverflowError, OSError):
        return None
