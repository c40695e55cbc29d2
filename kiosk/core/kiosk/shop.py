"""What is settled before a lesson: content, this machine, and who may use it."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import Event
from kiosk.core.model import Content, Machine, Reading, Roster
from kiosk.core.plan.shape import Plan
from kiosk.core.values import replace

RUN_INPUTS = ("starter", "spindle")
KEPT_FOR_S = 600  # a set-up is kept for ten minutes
PRE_USE_FOR_S = 14 * 3600  # the pre-use check holds until power-off, 14 hours at most
READY_FOR_S = 600  # what a pupil in line has seen to is taken for so long
SPELL_FOR_S = 120  # an attended spell ends after two minutes without a hole
STANDS_FOR_S = 60  # whoever has done an adult's step does the next one with one touch
ASK_AFTER_S = 60  # no touch with the drill still: asks
GONE_AFTER_S = 180  # ... and closes
DESK_FOR_S = 60  # a page of the desk closes by itself
FINISHED_FOR_S = 15


HABITS = ("large", "left", "aloud")
"""Larger text, made for a left hand, read aloud."""


@dataclass(frozen=True)
class Looked:
    """What was found of one part of the computer, in English; `state` is `good`, `look`, `bad`."""

    name: str
    state: str
    found: str
    advice: str = ""


@dataclass(frozen=True)
class Shop:
    """The workshop as `decide` and `view` see it; it changes only when content is read anew.

    `reads_all` is false while the record holds kinds of event that this version does not know:
    no lesson opens on them. `languages` are those that pupils have chosen, by their references,
    `habits` how they use the screen: words of `HABITS` with spaces between. `has_voice`: screens
    can be read aloud here. `notes` are the texts that adults wrote, by their references.
    `computer` is what was found of the computer after the last start.
    """

    content: Content
    machine: Machine
    roster: Roster
    software: str
    reads_all: bool = True
    languages: tuple[tuple[str, str], ...] = ()
    habits: tuple[tuple[str, str], ...] = ()
    has_voice: bool = False
    notes: tuple[tuple[str, str], ...] = ()
    computer: tuple[Looked, ...] = ()

    def language_of(self, pupil: str) -> str:
        """The language that a pupil has chosen; empty for the school's."""
        return dict(self.languages).get(pupil, "")

    def speaking(self, pupil: str, language: str) -> Shop:
        """The shop once a pupil has chosen a language."""
        others = tuple(pair for pair in self.languages if pair[0] != pupil)
        return replace(self, languages=(*others, (pupil, language)))

    def habits_of(self, pupil: str) -> tuple[str, ...]:
        """How a pupil uses the screen, in the order of `HABITS`."""
        chosen = dict(self.habits).get(pupil, "").split()
        return tuple(habit for habit in HABITS if habit in chosen)

    def turning(self, pupil: str, habit: str) -> Shop:
        """The shop once a pupil has turned a habit on, or off again."""
        before = self.habits_of(pupil)
        after = [h for h in HABITS if (h in before) != (h == habit)]
        others = tuple(pair for pair in self.habits if pair[0] != pupil)
        return replace(self, habits=(*others, (pupil, " ".join(after))))

    def noting(self, note: str, text: str) -> Shop:
        """The shop once an adult has written a note."""
        return replace(self, notes=(*self.notes, (note, text)))

    @property
    def run_inputs(self) -> tuple[str, ...]:
        """The inputs wired here that tell whether the drill runs."""
        return tuple(n for n in RUN_INPUTS if self.machine.wiring.has(n))

    @property
    def reads_isolator(self) -> bool:
        """Whether this machine has an isolator contact."""
        return self.machine.wiring.has("isolator")


@dataclass(frozen=True)
class Decided:
    """What follows from an input: events to record and take in, or why it was refused.

    `refusal` is a short word. `plan` comes with the start of a session.
    """

    events: tuple[Event, ...] = ()
    refusal: str = ""
    plan: Plan | None = None


def took(*events: Event) -> Decided:
    """The input was taken and leads to these events."""
    return Decided(events)


def refused(why: str) -> Decided:
    """The input was refused for a reason the screen can say."""
    return Decided(refusal=why)


NOTHING = Decided()


def is_lost(reading: Reading) -> bool:
    """Whether a reading gives nothing to go by."""
    return reading in (Reading.UNKNOWN, Reading.FAULT)
