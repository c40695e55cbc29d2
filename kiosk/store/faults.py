"""Why the record can't be written or read, in one short word and one line."""

from __future__ import annotations

import errno
import os
import sqlite3
from pathlib import Path

NEEDED_BYTES = 65_536  # less room than this beside the record counts as a full card

TEXTS = {
    "full": "the card is full; make room or take another card",
    "read_only": "the card or the folder can't be written to",
    "failing": "the card does not answer as it should; take another card soon",
    "in_use": "another program has the record open; close it first",
    "damaged": "the record is damaged; a restart sets it aside and begins a new one",
    "newer": "the record is from a newer version of this software; update this one",
}

_BY_CODE = {
    "SQLITE_FULL": "full",
    "SQLITE_READONLY": "read_only",
    "SQLITE_PERM": "read_only",
    "SQLITE_BUSY": "in_use",
    "SQLITE_LOCKED": "in_use",
    "SQLITE_CORRUPT": "damaged",
    "SQLITE_NOTADB": "damaged",
}
_BY_ERRNO = {
    errno.ENOSPC: "full",
    errno.EDQUOT: "full",
    errno.EROFS: "read_only",
    errno.EACCES: "read_only",
    errno.EPERM: "read_only",
}


class RecordFault(Exception):
    """The record can't go on.

    `why` is `full`, `read_only`, `failing`, `in_use`, `damaged` or `newer`; `text` is one line.
    Nothing that was acknowledged is lost, and a later try may work.
    """

    def __init__(self, why: str, text: str) -> None:
        super().__init__(text)
        self.why, self.text = why, text


def fault(why: str, path: Path, more: str = "") -> RecordFault:
    """The fault for one of the short words, with the record's path and what is known more."""
    return RecordFault(why, f"{path}: {TEXTS[why]}" + (f" ({more})" if more else ""))


def fault_of(error: BaseException, path: Path) -> RecordFault:
    """The fault that an error of SQLite or of the system stands for."""
    while not isinstance(error, sqlite3.Error | OSError) and error.__cause__ is not None:
        error = error.__cause__
    if isinstance(error, OSError):
        return fault(_BY_ERRNO.get(error.errno or 0, "failing"), path, error.strerror or "")
    name = str(getattr(error, "sqlite_errorname", ""))
    why = _BY_CODE.get("_".join(name.split("_")[:2]), "failing")
    return fault(_looked_at(why, path), path, f"{name or type(error).__name__}: {error}")


def _looked_at(why: str, path: Path) -> str:
    """What *failing* really is, where the file system tells more than SQLite does."""
    if why != "failing":
        return why
    try:
        room = os.statvfs(path.parent)
    except OSError:
        return why
    if room.f_bavail * room.f_frsize < NEEDED_BYTES:
        return "full"
    return why if os.access(path.parent, os.W_OK) else "read_only"
