"""Pupils by number, adults by name, in groups."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.model.words import Level


@dataclass(frozen=True)
class Pupil:
    """A pupil: the lasting number in the group, and a random reference that the record uses."""

    ref: str
    number: int
    level: Level
    name: str = ""


@dataclass(frozen=True)
class Group:
    """A teaching group and its pupils by number."""

    id: str
    name: str
    pupils: tuple[Pupil, ...]


@dataclass(frozen=True)
class Adult:
    """An adult as shown on the screen; secrets stay in `people` and `store`."""

    ref: str
    name: str
    role: str  # `teacher`, `technician`


@dataclass(frozen=True)
class Roster:
    """Who may use the drill: groups and adults. Names never leave it for the record."""

    groups: tuple[Group, ...] = ()
    adults: tuple[Adult, ...] = ()

    def group(self, id: str) -> Group | None:
        """The group called `id`."""
        return next((g for g in self.groups if g.id == id), None)

    def pupil(self, ref: str) -> Pupil | None:
        """The pupil behind a reference."""
        return next((p for g in self.groups for p in g.pupils if p.ref == ref), None)

    def adult(self, ref: str) -> Adult | None:
        """The adult behind a reference."""
        return next((a for a in self.adults if a.ref == ref), None)
