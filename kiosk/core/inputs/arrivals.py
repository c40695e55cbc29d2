"""What comes in without a touch: readings, deadlines, commands and results of slow work."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.inputs.touches import Input
from kiosk.core.model import Reading


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
class BadgeChecked(Input):
    """The worker's answer on the badge read last: whose it is; empty for nobody's."""

    adult: str


@dataclass(frozen=True)
class CodeChecked(Input):
    """The worker's answer on the spare code tried last: its number; 0 for wrong or used up."""

    adult: str
    number: int


@dataclass(frozen=True)
class SecretReady(Input):
    """A new `pin`, `badge` or `codes` is kept for the adult, as `by` asked.

    `lines` are to be shown once. `why` says in a short word why nothing was kept.
    """

    adult: str
    what: str
    by: str
    lines: tuple[str, ...] = ()
    why: str = ""


@dataclass(frozen=True)
class AdultNamed(Input):
    """A name was kept for a new adult; empty `adult`: it was not one that can be."""

    adult: str
    role: str


@dataclass(frozen=True)
class AdultAllowed(Input):
    """A command authorised the adult on a machine up to a day; 0 for no end."""

    adult: str
    machine: str
    until: int
    by: str


@dataclass(frozen=True)
class RosterRead(Input):
    """A roster was taken in: how many came, changed and left; levels and who has an adult beside.

    `levels` and `beside` name pupils by reference.
    """

    by: str
    pupils: int
    added: int
    changed: int
    left: int
    levels: tuple[tuple[str, str], ...] = ()
    beside: tuple[str, ...] = ()


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
class LevelsShared(Input):
    """Levels that were granted at drills that are alike, as another kiosk has them.

    Each as pupil reference, level, drills alike, class of bits, then the days (of UTC since
    1970) it was granted, ends (0 for none) and was last used on.
    """

    by: str
    levels: tuple[tuple[str, str, str, str, int, int, int], ...]


@dataclass(frozen=True)
class AdultIssued(Input):
    """A command issued a PIN: a new adult in `role`, or a new PIN for one already known.

    With a `machine`, authorised there up to the day `until`; with so many spare codes.
    """

    adult: str
    role: str
    by: str
    machine: str = ""
    until: int = 0
    codes: int = 0


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
    """A download, or a sheet for a stick, has come `done` of `whole` far."""

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


@dataclass(frozen=True)
class PackageRead(Input):
    """What a stick would bring in, or in `why` a short word for why it can't.

    `package` is its digest, `made_us` when it was put together; each line is a short word for
    what it says, and what it says it of.
    """

    package: str
    made_us: int
    lines: tuple[tuple[str, str], ...]
    why: str = ""


@dataclass(frozen=True)
class PackageIn(Input):
    """A package is ready to be written in one transaction with what it leads to.

    `parts` are those of `roster`, `revoked` and `school` that it has; `revoked` names adults by
    reference. With `why` it was not: nothing of it is taken in.
    """

    by: str
    package: str
    made_us: int
    parts: tuple[str, ...] = ()
    roster: RosterRead | None = None
    revoked: tuple[str, ...] = ()
    why: str = ""


@dataclass(frozen=True)
class SheetRead(Input):
    """A printed sheet to be read, part by part: its heading, then its lines.

    `why` is a short word for why it can't be made, else empty.
    """

    sheet: str
    parts: tuple[tuple[str, ...], ...]
    why: str = ""


@dataclass(frozen=True)
class SheetEnded(Input):
    """A sheet was written to a stick (`why` empty), or was not (`why` a short word)."""

    why: str
