"""The lesson's part of the state: who opened it, for whom, how long, and an attended spell."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    AdultRevoked,
    Entry,
    EveryoneStopped,
    HoleDrilled,
    Interrupted,
    KioskStarted,
    LessonClosed,
    LessonConfirmed,
    LessonLengthened,
    LessonOpened,
    LessonTightened,
    Resumed,
    SpellEnded,
    SpellStarted,
    TroubleNamed,
)
from kiosk.core.kiosk.line import Line, advance_line
from kiosk.core.units import Moment
from kiosk.core.values import replace


@dataclass(frozen=True)
class Spell:
    """An adult stays at the drill; `last` is when it began or the last hole was drilled."""

    adult: str
    last: Moment


@dataclass(frozen=True)
class Lesson:
    """A time a teacher has opened: a length, not a clock time.

    `confirmed` is false after a restart until an adult takes it up again. `tighter`: what its
    adult asks for beyond the school's rules.
    """

    number: int
    adult: str
    group: str
    jobs: tuple[str, ...]
    length_s: int
    opened: Moment
    confirmed: bool = True
    stopped: bool = False
    spell: Spell | None = None
    line: Line = Line()
    tighter: tuple[str, ...] = ()

    def is_over(self, now: Moment) -> bool:
        """Whether its length has passed; not known, so not over, across a restart."""
        passed = now.since(self.opened)
        return passed is not None and passed.s >= self.length_s


def advance_lesson(lesson: Lesson | None, entry: Entry) -> Lesson | None:
    """The lesson's part after the entry; None while no lesson is open."""
    match entry.event:
        case LessonOpened(adult, group, jobs, length_s):
            return Lesson(entry.seq, adult, group, jobs, length_s, entry.at)
        case LessonClosed():
            return None
    if lesson is None:
        return None
    after = _advance_open(lesson, entry)
    line = advance_line(after.line, entry)
    return after if line == after.line else replace(after, line=line)


def _advance_open(lesson: Lesson, entry: Entry) -> Lesson:
    match entry.event:
        case KioskStarted():
            return replace(lesson, confirmed=False, spell=None)
        case LessonConfirmed(adult):
            return replace(lesson, confirmed=True, adult=adult, opened=entry.at)
        case EveryoneStopped():
            return replace(lesson, stopped=True, spell=None)
        case Resumed():
            return replace(lesson, stopped=False)
        case LessonLengthened(_, by_s):
            return replace(lesson, length_s=lesson.length_s + by_s)
        case LessonTightened(_, what):
            spell = None if what == "no_spell" else lesson.spell
            return replace(lesson, tighter=(*lesson.tighter, what), spell=spell)
        case SpellStarted(adult):
            return replace(lesson, spell=Spell(adult, entry.at))
        case SpellEnded() | Interrupted() | TroubleNamed():
            return replace(lesson, spell=None)
        case AdultRevoked(ref) if lesson.spell and lesson.spell.adult == ref:
            return replace(lesson, spell=None)
        case HoleDrilled() if lesson.spell:
            return replace(lesson, spell=replace(lesson.spell, last=entry.at))
    return lesson
