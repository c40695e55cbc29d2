"""Pupils by number, adults by name, in groups, and what each kind of adult may do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kiosk.core.model.words import Level

# What an adult may do, in one word each.
LOOK = "look"  # give the OK, do an adult's step, go on by looking, end an interruption
OPEN = "open"  # open, take up, lengthen and close a lesson
CHECK = "check"  # do the check of the day
OWN = "own use"  # drill for themselves
LEVEL = "level"  # raise a pupil's training level
OFFICE = "office"  # downloads, jobs, the assessment
CARE = "care"  # the technician's corner: checks, bits, data of the drill, deputy, restart
PEOPLE = "people"  # issue and revoke PINs, badges and spare codes

_TEACHES = frozenset({LOOK, OPEN, CHECK, OWN, LEVEL, OFFICE})

MAY: Mapping[str, frozenset[str]] = {
    "teacher": _TEACHES,
    "technician": _TEACHES | {CARE, PEOPLE},
    "cover": frozenset({LOOK, OPEN, CHECK}),  # takes a lesson for an absent teacher
    "assistant": frozenset({LOOK, CHECK}),  # helps in a lesson that another adult has opened
    "trainee": frozenset({LOOK}),  # learns to teach, in a lesson that another adult has opened
}
"""What each role may do. Anybody who is authorised may stop everyone, note, take out of use."""

STANDING = ("teacher", "technician")
"""Roles that hold for every drill until revoked; the others are for one drill until a day."""


@dataclass(frozen=True)
class Pupil:
    """A pupil: the lasting number in the group, and a random reference that the record uses.

    `beside`: an adult stays beside, whatever the level; no reason is kept anywhere. `visitor`:
    here for a day; no level is ever raised.
    """

    ref: str
    number: int
    level: Level
    name: str = ""
    beside: bool = False
    visitor: bool = False


@dataclass(frozen=True)
class Group:
    """A teaching group or a club, and its pupils by number."""

    id: str
    name: str
    pupils: tuple[Pupil, ...]


@dataclass(frozen=True)
class Adult:
    """An adult as shown on the screen; secrets stay in `people` and `store`."""

    ref: str
    name: str
    role: str  # a key of `MAY`


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


@dataclass(frozen=True)
class Question:
    """One of the *questions before you drill*: ids only, the texts are the language's."""

    id: str
    answers: tuple[str, ...]
    right: str


@dataclass(frozen=True)
class Policy:
    """What the school has settled about people.

    `shuffled`: the PIN pad mixes its keys each time. `names`: pupils' names are imported and
    shown. `questions_first`: *supervised* and above stand only once the questions were answered.
    A level ends `lasts` days after it was granted, and lapses after `lapses` days without a hole
    (common practice: a school year, and a term). `watched`: what a teacher may have watched.
    """

    shuffled: bool = False
    names: bool = False
    questions_first: bool = False
    lasts: int = 366
    lapses: int = 120
    watched: tuple[str, ...] = ()
    questions: tuple[Question, ...] = ()
