"""The parts about the card: where the record lies, how the card answers, how much room is left."""

from __future__ import annotations

import os
import shutil
import statistics
import tempfile
from collections.abc import Callable
from pathlib import Path

from kiosk.selftest.finding import Finding, bad, good, look

MOUNTS = Path("/proc/self/mounts")
FORGETFUL = ("tmpfs", "ramfs", "overlay", "aufs", "squashfs")
SLOW_MS = 200.0  # common practice: a card in order syncs a small write in far less
TRIES = 9
LOW_MB, LOWEST_MB = 500, 50  # a year of record is some tens of MB; systems want the rest
OLD_DAYS = 14


def record_place(record: Path, mounts: Path = MOUNTS, own: bool = False) -> Finding:
    """Whether what is written where the record lies outlives the power.

    `own`: it is where the user's kiosk has it without being told, which its first start makes.
    """
    place = record.parent.resolve()
    if not os.path.isdir(place):
        return _no_folder(place, own)
    found = [fields for line in mounts.read_text().splitlines() if len(fields := line.split()) > 2]
    under = [(Path(f[1].replace("\\040", " ")), f[2]) for f in found]
    fitting = [(where, kind) for where, kind in under if place.is_relative_to(where)]
    where, kind = max(fitting, key=lambda pair: len(pair[0].parts), default=(Path("/"), "?"))
    if kind in FORGETFUL:
        found = f"{place} lies on {kind}: all of it is lost with the power"
        return bad("record", found, "give the record a part of the card (record: in the settings)")
    return good("record", f"{place} on {kind}, mounted at {where}")


def _no_folder(place: Path, own: bool) -> Finding:
    there = next(path for path in place.parents if os.path.isdir(path))
    found = f"there is no folder {place}"
    if own and os.access(there, os.W_OK | os.X_OK):
        return look("record", found, "the kiosk's first start makes it")
    return bad("record", found, "make it, or name another (record: in the settings)")


def storage(folder: Path, us: Callable[[], int]) -> Finding:
    """How long a small write takes until it is safe; microseconds are handed in."""
    taken = []
    try:
        with tempfile.TemporaryFile(dir=folder) as file:
            for _ in range(TRIES):
                begun = us()
                file.write(bytes(4096))
                file.flush()
                os.fsync(file.fileno())
                taken.append(us() - begun)
    except OSError as error:
        return bad("storage", f"{folder}: {error.strerror}", "look at the card; it may be failing")
    middle = statistics.median(taken) / 1000
    found = f"a small write is safe after {middle:.1f} ms"
    if middle > SLOW_MS:
        return look("storage", found, "the card is slow or worn; think of a new one")
    return good("storage", found)


def disk_space(folder: Path) -> Finding:
    """How much room is left where the record lies."""
    left = shutil.disk_usage(folder).free // 1_000_000
    found = f"{left} MB left"
    if left < LOWEST_MB:
        return bad("disk space", found, "take a download away, then make room on the card")
    if left < LOW_MB:
        return look("disk space", found, "make room on the card before it is full")
    return good("disk space", found)


def last_download(days: int | None) -> Finding:
    """How many days ago the record was last taken away; None for never."""
    if days is None:
        return look("download", "none was ever taken away", "put a stick in, or use download")
    found = f"taken away {days} days ago" if days != 1 else "taken away 1 day ago"
    if days > OLD_DAYS:
        return look("download", found, "take the record away; a card can fail any day")
    return good("download", found)
