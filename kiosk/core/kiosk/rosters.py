"""What a roster taken in leads to, and levels that another kiosk of a drill alike has granted."""

from __future__ import annotations

from kiosk.core.events import BesideSet, Event, LevelKept, LevelSet, RosterTaken
from kiosk.core.inputs import LevelsShared, RosterRead
from kiosk.core.kiosk.pupils import Grant, granted
from kiosk.core.kiosk.root import Kiosk


def roster_taken(kiosk: Kiosk, given: RosterRead) -> tuple[Event, ...]:
    """The roster as counts, levels of pupils who have none, and who has an adult beside."""
    before = kiosk.pupils
    levels = [LevelSet(r, word, given.by) for r, word in given.levels if not before.has(r)]
    on = [BesideSet(r, 1, given.by) for r in given.beside if r not in before.beside]
    counts = (given.pupils, given.added, given.changed, given.left)
    return (RosterTaken(given.by, *counts), *levels, *on)


def levels_shared(kiosk: Kiosk, given: LevelsShared) -> tuple[Event, ...]:
    """Each level that is newer than the one here of the same pupil, drills and bits.

    What was granted last stands, be it higher or lower; of the same grant, the later use.
    """
    kept = (LevelKept(*level, given.by) for level in given.levels)
    return tuple(event for event in kept if _is_newer(kiosk, granted(event, 0)))


def _is_newer(kiosk: Kiosk, new: Grant | None) -> bool:
    own = next((g for g in kiosk.pupils.grants if new and g.what == new.what), None)
    if new is None or own is None:
        return new is not None
    return (new.since, new.used) > (own.since, own.used)
