"""The pupils' part of the state: training levels by random reference, and what goes with them."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    BesideSet,
    Entry,
    Event,
    HoleDrilled,
    JobDropped,
    LevelGranted,
    LevelKept,
    LevelSet,
    PilotsDrilled,
    QuestionsAnswered,
)
from kiosk.core.model import Level
from kiosk.core.session import Session
from kiosk.core.values import replace

PLAIN = "plain"  # the class of every bit but those that cut a ring


@dataclass(frozen=True)
class Grant:
    """One training level of one pupil, with the days it was given, ends and was last used on.

    It counts on machines `alike` (empty: on this one) for bits of the class `bits`; `until` 0 is
    no end. `days` counts are of UTC since 1970.
    """

    pupil: str
    level: Level
    alike: str = ""
    bits: str = PLAIN
    since: int = 0
    until: int = 0
    used: int = 0

    @property
    def what(self) -> tuple[str, str, str]:
        """Whose, for which machines and bits: a later grant of the same takes its place."""
        return self.pupil, self.alike, self.bits


@dataclass(frozen=True)
class Piloted:
    """How many holes of one kind have a pilot in a pupil's work, and are not drilled yet."""

    pupil: str
    job: str
    hole: int
    left: int = 0

    @property
    def what(self) -> tuple[str, str, int]:
        """Whose, and for which hole of which job."""
        return self.pupil, self.job, self.hole


@dataclass(frozen=True)
class Pupils:
    """Levels, those with an adult always beside, who has answered the questions, pilots drilled."""

    grants: tuple[Grant, ...] = ()
    beside: tuple[str, ...] = ()
    answered: tuple[str, ...] = ()
    piloted: tuple[Piloted, ...] = ()

    @property
    def levels(self) -> tuple[tuple[str, Level], ...]:
        """The levels that a roster gave (pupil reference, level), in the order first given."""
        return tuple((g.pupil, g.level) for g in self.grants if not g.alike)

    def level(self, ref: str) -> Level:
        """The level that a roster gave; the lowest if none did."""
        return dict(self.levels).get(ref, Level.ADULT_BESIDE)

    def with_pilot(self, ref: str, job: str, hole: int) -> int:
        """How many holes of a kind may be drilled in a pupil's work since their pilots are."""
        return next((p.left for p in self.piloted if p.what == (ref, job, hole)), 0)

    def has(self, ref: str) -> bool:
        """Whether a level was ever set."""
        return any(g.pupil == ref for g in self.grants)


def advance_pupils(pupils: Pupils, entry: Entry, before: Session | None = None) -> Pupils:
    """The pupils' part after the entry; `before` is the session as it was before it."""
    event, day = entry.event, entry.at.day
    grant = granted(event, day)
    if grant is not None:
        return replace(pupils, grants=_put(pupils.grants, grant))
    match event:
        case BesideSet(ref, on):
            others = tuple(r for r in pupils.beside if r != ref)
            return replace(pupils, beside=(*others, ref) if on else others)
        case QuestionsAnswered(ref) if ref not in pupils.answered:
            return replace(pupils, answered=(*pupils.answered, ref))
        case PilotsDrilled(ref, job, hole, count):
            return replace(pupils, piloted=_counted(pupils.piloted, (ref, job, hole), count))
        case JobDropped(job):
            kept = tuple(p for p in pupils.piloted if p.job != job)
            return replace(pupils, piloted=kept)
        case HoleDrilled() if before:
            what = (before.pupil, before.job, before.hole)
            after = _used(pupils, before.pupil, before.plan.set_up.bit, day)
            return replace(after, piloted=_counted(after.piloted, what, -1))
    return pupils


def _counted(
    piloted: tuple[Piloted, ...], what: tuple[str, str, int], by: int
) -> tuple[Piloted, ...]:
    """So many pilots more, or one used; nothing is kept of those that are all used."""
    old = next((p for p in piloted if p.what == what), Piloted(*what))
    others = tuple(p for p in piloted if p.what != what)
    left = old.left + by
    return (*others, replace(old, left=left)) if left > 0 else others


def granted(event: Event, day: int) -> Grant | None:
    """The grant that an event of that day stands for; None for any other event."""
    match event:
        case LevelSet(ref, word):
            return Grant(ref, level_of(word), since=day, used=day)
        case LevelGranted(ref, word, alike, bits, _, until):
            return Grant(ref, level_of(word), alike, bits, day, until, day)
        case LevelKept(ref, word, alike, bits, since, until, used):
            return Grant(ref, level_of(word), alike, bits, since, until, used)
    return None


def level_of(word: str) -> Level:
    """The level behind its short word."""
    return Level(word.replace("_", " "))


def _put(grants: tuple[Grant, ...], new: Grant) -> tuple[Grant, ...]:
    if any(g.what == new.what for g in grants):
        return tuple(new if g.what == new.what else g for g in grants)
    return (*grants, new)


def _used(pupils: Pupils, ref: str, bit: str, day: int) -> Pupils:
    """A hole keeps the level for its kind of bit from lapsing; once a day is enough."""
    mine = [g for g in pupils.grants if g.pupil == ref]
    bits = bit if any(g.bits == bit for g in mine) else PLAIN
    if all(g.used >= day for g in mine if g.bits == bits):
        return pupils
    used = {g.what: replace(g, used=max(day, g.used)) for g in mine if g.bits == bits}
    return replace(pupils, grants=tuple(used.get(g.what, g) for g in pupils.grants))
