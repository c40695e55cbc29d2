"""Every touch of a finger, and what it travels in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True)
class Input:
    """What all inputs share."""


@dataclass(frozen=True)
class Touch(Input):
    """A finger on one button. `secret` ones are never logged with their fields."""

    secret: ClassVar[bool] = False


# --- touches: finding one's way ---


@dataclass(frozen=True)
class OpenPage(Touch):
    """Open a page of the desk, for instance `jobs`, `adults`, `note`."""

    page: str
    about: str = ""


@dataclass(frozen=True)
class LeavePage(Touch):
    """Leave the desk: back to the lesson or session."""


@dataclass(frozen=True)
class Choose(Touch):
    """One answer of the form on the desk."""

    what: str
    value: str


@dataclass(frozen=True)
class StillThere(Touch):
    """Answer to *Still there?*."""


# --- touches: a session ---


@dataclass(frozen=True)
class PickPupil(Touch):
    """The pupil with this number in the lesson's group."""

    number: int


@dataclass(frozen=True)
class PickJob(Touch):
    """The job, and which of its holes (0 first)."""

    job: str
    hole: int


@dataclass(frozen=True)
class PickLanguage(Touch):
    """The language that the pupil at the screen reads; the runtime keeps it, no event does."""

    language: str


@dataclass(frozen=True)
class TurnHabit(Touch):
    """Turn on or off how the pupil at the screen uses it: a word of `kiosk.core.kiosk.HABITS`."""

    habit: str


@dataclass(frozen=True)
class SeenRight(Touch):
    """The button of a step: its sign is seen to be right."""

    step: str


@dataclass(frozen=True)
class GoBack(Touch):
    """Back one step."""


@dataclass(frozen=True)
class PickNotRight(Touch):
    """At the adult check: the line of this step is not right."""

    step: str


@dataclass(frozen=True)
class Still(Touch):
    """Stopped and still."""


@dataclass(frozen=True)
class NotDrilled(Touch):
    """No run was seen and none was made: the hole is still to be drilled."""


@dataclass(frozen=True)
class Leave(Touch):
    """The pupil ends the session before its end, drill still."""


@dataclass(frozen=True)
class SomethingWrong(Touch):
    """*Something wrong?*, on every screen."""


@dataclass(frozen=True)
class StopEveryone(Touch):
    """*Everyone stop*, on every screen of a lesson."""


@dataclass(frozen=True)
class NameTrouble(Touch):
    """The picture of what is wrong."""

    trouble: str


@dataclass(frozen=True)
class StaysOn(Touch):
    """In a recovery: the isolator of this step can't be turned off, or reads on anyway."""

    step: str


@dataclass(frozen=True)
class ByMistake(Touch):
    """*Something wrong?* was pressed by mistake."""


# --- touches: adults ---


@dataclass(frozen=True)
class AskAdult(Touch):
    """An adult is needed for `purpose`: opens the list of names."""

    purpose: str


@dataclass(frozen=True)
class PickAdult(Touch):
    """The adult whose PIN is asked for."""

    adult: str


@dataclass(frozen=True)
class TypePin(Touch):
    """Six digits. `stay` 1 asks for an attended spell."""

    adult: str
    digits: str
    stay: int = 0
    secret: ClassVar[bool] = True


@dataclass(frozen=True)
class TypeCode(Touch):
    """The ten digits of a spare code."""

    adult: str
    digits: str
    secret: ClassVar[bool] = True


@dataclass(frozen=True)
class BadgeRead(Touch):
    """A badge was held to the reader: what it typed, from wherever the kiosk stands just now."""

    digits: str
    secret: ClassVar[bool] = True


@dataclass(frozen=True)
class TypeName(Touch):
    """A technician's name for a new adult in `role`; the runtime keeps it and hands in its ref."""

    role: str
    name: str
    secret: ClassVar[bool] = True


@dataclass(frozen=True)
class SpellOk(Touch):
    """One touch of the adult who is at the drill: in a spell, or at the second of two steps."""


@dataclass(frozen=True)
class EndSpell(Touch):
    """The adult ends the spell."""


@dataclass(frozen=True)
class Act(Touch):
    """A signed-in adult does `what`, with one word `about` it."""

    what: str
    about: str = ""


@dataclass(frozen=True)
class TypeNote(Touch):
    """A signed-in adult's note; the runtime keeps the text apart and hands in `NoteKept`."""

    what: str
    hazard: str
    text: str
    secret: ClassVar[bool] = True


@dataclass(frozen=True)
class Touched(Input):
    """A touch with the number of the view it was made from."""

    view: int
    touch: Touch
