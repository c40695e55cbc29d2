"""What happens to the lesson a teacher opened."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class LessonOpened(Event):
    """A teacher opened a lesson for a group and a list of jobs, `length_s` long."""

    adult: str
    group: str
    jobs: tuple[str, ...]
    length_s: int


@dataclass(frozen=True)
class LessonConfirmed(Event):
    """After a restart an adult took the open lesson up again."""

    adult: str


@dataclass(frozen=True)
class LessonLengthened(Event):
    """An adult made the lesson `by_s` longer."""

    adult: str
    by_s: int


@dataclass(frozen=True)
class LessonTightened(Event):
    """For the rest of the lesson an adult asks for more than the school does.

    `what`: `every_hole` (an adult looks at every hole), `no_spell`, `no_more` (no new turns).
    """

    adult: str
    what: str


@dataclass(frozen=True)
class LessonClosed(Event):
    """The lesson is over. `by` is an adult or `time`."""

    by: str


@dataclass(frozen=True)
class EveryoneStopped(Event):
    """Everyone is to stop. `adult` is the one who stayed at the drill, or empty: nobody said."""

    adult: str


@dataclass(frozen=True)
class Resumed(Event):
    """An adult let work go on."""

    adult: str


@dataclass(frozen=True)
class SpellStarted(Event):
    """The adult stays at the drill: one touch is an OK until the spell ends."""

    adult: str


@dataclass(frozen=True)
class SpellEnded(Event):
    """The attended spell is over. `why`: `touch`, `time`, `interruption`, `lesson`."""

    why: str


@dataclass(frozen=True)
class SilenceAsked(Event):
    """Silent hours: nobody begins for `for_s` seconds, in a lesson or not."""

    adult: str
    for_s: int


@dataclass(frozen=True)
class SilenceEnded(Event):
    """The silent hours are over. `by` is an adult or `time`."""

    by: str


@dataclass(frozen=True)
class HoursOverruled(Event):
    """An adult says that the kiosk's clock is wrong: the timetable's silent hours do not hold.

    That counts for the hours that end at `until_s` (seconds of UTC since 1970), up to the next
    start, and only while the clock is not synchronised.
    """

    adult: str
    until_s: int


# --- the line at the drill ------------------------------------------------------------------------


@dataclass(frozen=True)
class LinedUp(Event):
    """A pupil stands in line for hole number `hole` (0 first) of `job`."""

    pupil: str
    job: str
    hole: int


@dataclass(frozen=True)
class ReadyInLine(Event):
    """A pupil in line has seen to eyes, hair, sleeves, ties and cords."""

    pupil: str


@dataclass(frozen=True)
class PassedOver(Event):
    """A pupil was called and not there: one other goes first."""

    pupil: str


@dataclass(frozen=True)
class LeftLine(Event):
    """A pupil no longer waits."""

    pupil: str


OF_THE_LINE = (LinedUp, ReadyInLine, PassedOver, LeftLine)
"""What happens in the line while another pupil may be at the drill."""
