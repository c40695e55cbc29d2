"""Everything that can come in: touches, readings, deadlines and results of slow work.

Each is a frozen value handed to `decide` with the time. A touch travels in `Touched`, which
names the view it was made from.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from kiosk.core.model import Reading


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
class NameTrouble(Touch):
    """The picture of what is wrong."""

    trouble: str


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
class SpellOk(Touch):
    """One touch of the adult who stays at the drill."""


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


# --- what is not a touch ---


@dataclass(frozen=True)
class KioskBegan(Input):
    """The software has started with this content. `after` is `first`, `clean` or `cut`."""

    machine: str
    software: str
    after: str
    content: str = ""


@dataclass(frozen=True)
class KioskEnding(Input):
    """The software is about to end itself."""


@dataclass(frozen=True)
class ReadingIs(Input):
    """Contact evaluation has a new reading for an input. `why` is a short word."""

    input: str
    reading: Reading
    why: str
    at_start: bool = False


@dataclass(frozen=True)
class DeadlinePassed(Input):
    """The deadline that was asked for has passed: `kind` says which."""

    kind: str


@dataclass(frozen=True)
class ClockMoved(Input):
    """The wall clock was stepped."""

    by_us: int
    quality: int


@dataclass(frozen=True)
class PinChecked(Input):
    """The worker's answer on the PIN tried last."""

    adult: str
    right: bool


@dataclass(frozen=True)
class NoteKept(Input):
    """A note's text lies in its table under `note`; `digest` is its salted SHA-256."""

    note: str
    what: str
    hazard: str
    digest: str


@dataclass(frozen=True)
class LevelsRead(Input):
    """The roster names these levels (pupil reference, level word)."""

    levels: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class AdultIssued(Input):
    """A command issued a PIN: a new adult in `role`, or a new PIN for one already known."""

    adult: str
    role: str
    by: str


@dataclass(frozen=True)
class AdultEnded(Input):
    """A command revoked an adult."""

    adult: str
    by: str


@dataclass(frozen=True)
class EraseAsked(Input):
    """What is kept of an `adult`, a `pupil` or a `note` is to go. `why`: `asked`, `retention`."""

    what: str
    ref: str
    why: str


@dataclass(frozen=True)
class PurgeReady(Input):
    """Entries `first` to `last` were kept long enough; `head` is the last one's hash."""

    first: int
    last: int
    head: str


@dataclass(frozen=True)
class DownloadMoved(Input):
    """A download has come `done` of `whole` far."""

    done: int
    whole: int


@dataclass(frozen=True)
class DownloadEnded(Input):
    """A download is finished (`why` empty) or failed (`why` a short word)."""

    span: str
    why: str
    first: int = 0
    last: int = 0
    head: str = ""
