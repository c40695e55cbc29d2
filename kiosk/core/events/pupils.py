"""What happens to pupils as such: the roster, training levels, questions before they drill."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class RosterTaken(Event):
    """A roster was taken in: how many pupils it has, and how many came, changed and left."""

    by: str
    pupils: int
    added: int
    changed: int
    left: int


@dataclass(frozen=True)
class BesideSet(Event):
    """From now on an adult stays beside the pupil (`on` 1), or no longer (0). No reason is kept."""

    pupil: str
    on: int
    by: str


@dataclass(frozen=True)
class LevelGranted(Event):
    """An adult who has watched `watched` at the machine granted a training level.

    It counts on every machine `alike`, for bits of the class `bits`, up to the day `until`.
    """

    pupil: str
    level: str
    alike: str
    bits: str
    watched: str
    until: int
    by: str


@dataclass(frozen=True)
class LevelKept(Event):
    """A level as another record has it, or this one before its beginning was taken away.

    Granted on day `since`, ending on day `until` (0 for none), last used on day `used`.
    """

    pupil: str
    level: str
    alike: str
    bits: str
    since: int
    until: int
    used: int
    by: str


@dataclass(frozen=True)
class PilotsDrilled(Event):
    """In the pupil's own work `count` pilots are there for hole number `hole` (0 first) of `job`.

    `by` is the adult who has seen them; empty: drilled here just now.
    """

    pupil: str
    job: str
    hole: int
    count: int
    by: str


@dataclass(frozen=True)
class QuestionsAnswered(Event):
    """The pupil has answered every one of the questions before you drill. No score is kept."""

    pupil: str
