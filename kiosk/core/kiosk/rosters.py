"""What a roster taken in leads to: counts, levels, and who has an adult beside."""

from __future__ import annotations

from kiosk.core.events import BesideSet, Event, LevelSet, RosterTaken
from kiosk.core.inputs import RosterRead
from kiosk.core.kiosk.root import Kiosk


def roster_taken(kiosk: Kiosk, given: RosterRead) -> tuple[Event, ...]:
    """The roster as counts, levels of pupils who have none, and who has an adult beside."""
    before = kiosk.pupils
    levels = [LevelSet(r, word, given.by) for r, word in given.levels if not before.has(r)]
    on = [BesideSet(r, 1, given.by) for r in given.beside if r not in before.beside]
    counts = (given.pupils, given.added, given.changed, given.left)
    return (RosterTaken(given.by, *counts), *levels, *on)
