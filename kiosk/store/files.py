"""The files beside the record, and setting a damaged record aside: all file access but SQLite's.

Beside `record.sqlite` lie `.lock` (held by the one writing process) and `.head` (the last
acknowledged line, a second opinion on a card that lies); and `.doubt` if a look through old
lines found something amiss.
"""

from __future__ import annotations

import contextlib
import fcntl
import os
from pathlib import Path
from typing import NamedTuple
from zlib import crc32

from kiosk.store.faults import fault, fault_of

PARTS = ("", "-wal", "-shm", "-journal", ".head", ".doubt")
BEGUN = ".aside-"


def beside(record: Path, ending: str) -> Path:
    """The file that lies beside the record under its name with `ending`."""
    return record.with_name(record.name + ending)


class Lock:
    """One writing process: held until released, or until the process ends however it ends."""

    def __init__(self, record: Path) -> None:
        """Takes the lock; raises RecordFault `in_use` if another process or record has it."""
        path = beside(record, ".lock")
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            self._handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o600)
        except OSError as error:
            raise fault_of(error, record) from error
        try:
            fcntl.flock(self._handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            os.close(self._handle)
            raise fault("in_use", record) from error

    def release(self) -> None:
        """Let another process write. May be called twice."""
        handle, self._handle = self._handle, -1
        if handle >= 0:
            os.close(handle)


class Head(NamedTuple):
    """The last line of a log: its number and hash."""

    log: str
    seq: int
    hash: str


class HeadFile:
    """Keeps the last acknowledged head in a file beside the record.

    Written in place after each commit and never waited for; it lags at most a little after a
    power cut and never runs ahead. A card that can't take it costs nothing but this check.
    """

    def __init__(self, record: Path) -> None:
        self._path = beside(record, ".head")
        self._handle: int | None = None

    def read(self) -> Head | None:
        """The head last kept; None if there is none or it was torn."""
        try:
            words = self._path.read_text("ascii", errors="replace").split()
        except OSError:
            return None
        if len(words) != 4 or words[3] != _sum(" ".join(words[:3])) or not words[1].isdigit():
            return None
        return Head(words[0], int(words[1]), words[2])

    def write(self, head: Head) -> None:
        """Keep a head; silent where the card does not take it."""
        said = f"{head.log} {head.seq:016d} {head.hash}"
        with contextlib.suppress(OSError):
            if self._handle is None:
                self._handle = os.open(self._path, os.O_WRONLY | os.O_CREAT | os.O_CLOEXEC, 0o600)
            os.pwrite(self._handle, f"{said} {_sum(said)}\n".encode("ascii"), 0)

    def close(self) -> None:
        """Write through to the card and close."""
        handle, self._handle = self._handle, None
        if handle is not None:
            with contextlib.suppress(OSError):
                os.fsync(handle)
            with contextlib.suppress(OSError):
                os.close(handle)


def _sum(text: str) -> str:
    return f"{crc32(text.encode()):08x}"


def doubt(record: Path) -> str:
    """What a look through the whole record found amiss; empty if nothing."""
    try:
        return beside(record, ".doubt").read_text("utf-8", errors="replace").strip()
    except OSError:
        return ""


def keep_doubt(record: Path, text: str) -> None:
    """Keep what was found amiss for the next opening, which sets the record aside."""
    with contextlib.suppress(OSError), beside(record, ".doubt").open("w") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    sync_folder(record.parent)


def make_private(record: Path) -> bool:
    """Make an empty file for a new record that only its own user can read; whether it is new."""
    try:
        handle = os.open(record, os.O_RDWR | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC, 0o600)
    except FileExistsError:
        return record.stat().st_size == 0
    except OSError as error:
        raise fault_of(error, record) from error
    os.close(handle)
    sync_folder(record.parent)
    return True


def set_aside(record: Path) -> Path:
    """Rename a damaged record with all its parts; nothing is deleted. Where it lies now.

    An empty file `.aside-N` says from the first rename to the last that this is being done.
    """
    number = 1
    while beside(record, f".damaged-{number}").exists():
        number += 1
    try:
        beside(record, f"{BEGUN}{number}").touch(0o600)
        sync_folder(record.parent)
    except OSError as error:
        raise fault_of(error, record) from error
    found = finish_setting_aside(record)
    assert found is not None
    return found


def finish_setting_aside(record: Path) -> Path | None:
    """Finish what a loss of power may have left half done; where the damaged record lies."""
    try:
        for begun in record.parent.glob(f"{record.name}{BEGUN}*"):
            aside = beside(record, begun.name.replace(f"{record.name}{BEGUN}", ".damaged-"))
            for part in PARTS:
                if beside(record, part).exists():
                    beside(record, part).rename(beside(aside, part))
            sync_folder(record.parent)
            begun.unlink()
            sync_folder(record.parent)
            return aside
    except OSError as error:
        raise fault_of(error, record) from error
    return None


def sync_folder(folder: Path) -> None:
    """Write a folder's own entries through to the card, where the file system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
