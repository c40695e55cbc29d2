"""The pupils' part of the state: training levels on this machine, by random reference."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import Entry, LevelSet
from kiosk.core.model import Level


@dataclass(frozen=True)
class Pupils:
    """Training levels (pupil reference, level), in the order they were first set."""

    levels: tuple[tuple[str, Level], ...] = ()

    def level(self, ref: str) -> Level:
        """The pupil's level; the lowest if none was ever set."""
        return next((level for r, level in self.levels if r == ref), Level.ADULT_BESIDE)

    def has(self, ref: str) -> bool:
        """Whether a level was ever set."""
        return any(r == ref for r, _ in self.levels)


def advance_pupils(pupils: Pupils, entry: Entry) -> Pupils:
    """The pupils' part after the entry."""
    if not isinstance(entry.event, LevelSet):
        return pupils
    ref, level = entry.event.pupil, Level(entry.event.level.replace("_", " "))
    if pupils.has(ref):
        return Pupils(tuple((r, level if r == ref else old) for r, old in pupils.levels))
    return Pupils((*pupils.levels, (ref, level)))
