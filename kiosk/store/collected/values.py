"""What is collected: a download as it lies there, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

MOST = 2**53 - 1
"""The largest whole number of canonical JSON (RFC 8785, by way of I-JSON, RFC 7493)."""


@dataclass(frozen=True)
class Download:
    """One download: lines `first` to `last` of `log`, hashes in hexadecimal, as its list says.

    `key` is the digest of its list, by which a download that was taken in is known again.
    `made_us` is the wall clock when it was made, `quality` its quality.
    """

    name: str
    key: str
    log: str
    first: int
    last: int
    prev: str
    head: str
    machine: str
    made_us: int = 0
    quality: int = 0

    @property
    def count(self) -> int:
        """How many lines it says there are."""
        return self.last - self.first + 1


class Row(NamedTuple):
    """One line as a row of the table, hashes as 32 bytes; `bytes` is the line as it came."""

    seq: int
    hash: bytes
    prev: bytes
    wall_us: int
    quality: int
    kind: str
    v: int
    bytes: bytes


class Remark(NamedTuple):
    """Something to know of a log: a short word, the lines it is about, and a sentence.

    `what`: `gap`, `fork`, `put_back`, `cloned`, `made_anew`, `renewed`, `changed`, `broken`,
    `other_school`.
    """

    what: str
    log: str
    first: int
    last: int
    text: str


@dataclass(frozen=True)
class Outcome:
    """What came of one download: lines that were new and lines that were there.

    `refused` says why it was set aside whole; then nothing of it counts.
    """

    download: Download
    new: int = 0
    there: int = 0
    refused: Remark | None = None
    remarks: tuple[Remark, ...] = ()
