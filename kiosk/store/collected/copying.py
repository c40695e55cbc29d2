"""Rows of events packed for COPY's binary format (PostgreSQL's manual, COPY, File Formats).

The driver's own way of writing a row costs three times as much as the rest of a line's work, so
the one row that comes by the million is packed here; everything else goes the driver's way.
"""

from __future__ import annotations

import struct
from collections.abc import Callable, Iterable

from kiosk.store.collected.values import Row

COPY = "COPY events (number, seq, hash, prev, wall_us, quality, kind, v, bytes) FROM STDIN BINARY"
BEGIN = b"PGCOPY\n\xff\r\n\0" + struct.pack("!ii", 0, 0)
END = struct.pack("!h", -1)
FIELDS = 9

_BEFORE = struct.Struct("!h ii iq i32s i32s iq ih i").pack
_AFTER = struct.Struct("!ih i").pack


def pack(number: int, row: Row) -> bytes:
    """One row: the number of fields, then each one's length and its value, big-endian."""
    seq, line_hash, prev, wall_us, quality, kind, v, data = row
    word = kind.encode()
    head = _BEFORE(
        FIELDS, 4, number, 8, seq, 32, line_hash, 32, prev, 8, wall_us, 2, quality, len(word)
    )
    return b"".join((head, word, _AFTER(2, v, len(data)), data))


def copy_rows(write: Callable[[bytes], None], placed: Iterable[tuple[int, list[Row]]]) -> None:
    """Write rows, so many at a time, each with the branch they belong to, in blocks of bytes."""
    write(BEGIN)
    for number, rows in placed:
        write(b"".join([pack(number, row) for row in rows]))
    write(END)
