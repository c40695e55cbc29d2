"""What has been kept long enough: found beside the running kiosk, taken away by it alone."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain
from pathlib import Path
from typing import Any

from kiosk.core.events import (
    AdultAdded,
    AdultRevoked,
    FollowedUp,
    LevelGranted,
    LevelKept,
    LevelSet,
    Noted,
    SessionStarted,
)
from kiosk.core.units import Moment
from kiosk.store import ReadOnlyRecord, cut_before

DAY_US = 86_400_000_000
LEVELS = ("level_set", "level_granted", "level_kept")


def to_tidy(
    path: Path, days: Mapping[str, int], roster: frozenset[str], now: Moment
) -> dict[str, Any]:
    """What may go by now, as JSON can hold it: `begin` for the log, `erase` as (what, ref).

    `days` is how long each class is kept; `roster` are pupils' references that are in use. With
    a clock that was never set nothing is old.
    """
    if now.quality == 0 or not days:
        return {"begin": None, "erase": []}
    with ReadOnlyRecord(path) as record:
        first, last = record.begin.first, record.head[0]
        lines = record.with_hashes(first, last)
        begin = cut_before(lines, record.begin, _before(days, "events", now), now.quality)
        erase = _expired(record, days, roster, now)
        told = [*begin[:2], begin.bytes.hex()] if begin != record.begin else None
        return {"begin": told, "erase": erase}


def _before(days: Mapping[str, int], kind: str, now: Moment) -> int:
    return now.wall_us - days[kind] * DAY_US


def _expired(
    record: ReadOnlyRecord, days: Mapping[str, int], roster: frozenset[str], now: Moment
) -> list[tuple[str, str]]:
    """Notes, revoked adults and pupils on no roster whose last mention is old enough."""
    kept, seen = record.kept(), _last_seen(record)
    found = [("note", n.note) for n in kept.notes if _is_old(seen, n.note, days, n.what, now)]
    found += [("adult", a) for a in kept.adults if _is_old(seen, a, days, "adult_left", now)]
    gone = [p for p in kept.pupils if p not in roster]
    found += [("pupil", p) for p in gone if _is_old(seen, p, days, "pupil_left", now)]
    return found


def _is_old(
    seen: Mapping[str, Moment], ref: str, days: Mapping[str, int], kind: str, now: Moment
) -> bool:
    at = seen.get(ref)
    return at is not None and at.quality > 0 and at.wall_us < _before(days, kind, now)


def _last_seen(record: ReadOnlyRecord) -> dict[str, Moment]:
    """When each note was made, each pupil last named, and each adult revoked who is so still."""
    was_cut = record.begin.first > 1
    seen = {n.note: Moment("", 0, 0, 1) for n in record.kept().notes if was_cut}
    kinds = ("noted", "followed_up", "adult_added", "adult_revoked", *LEVELS, "session_started")
    for entry in chain(record.begin.entries(), record.of_kinds(*kinds)):
        match entry.event:
            case AdultAdded(adult):
                seen.pop(adult, None)
            case AdultRevoked(ref) | SessionStarted(ref) | Noted(note=ref) | FollowedUp(note=ref):
                seen[ref] = entry.at
            case LevelSet(ref) | LevelGranted(ref) | LevelKept(ref):
                seen[ref] = entry.at
    return seen
