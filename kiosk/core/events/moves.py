"""Moves: what is open at the screen. They are never recorded and are forgotten at a restart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class Move(Event):
    """A change of the desk only: which page is open. Forgotten at a restart."""

    recorded: ClassVar[bool] = False


@dataclass(frozen=True)
class PageOpened(Move):
    """The desk shows `page`; `about` is what it is for."""

    page: str
    about: str = ""


@dataclass(frozen=True)
class DeskCleared(Move):
    """The desk is empty: the screen shows the lesson or session again."""


@dataclass(frozen=True)
class AdultPicked(Move):
    """The adult whose PIN is asked for next."""

    adult: str


@dataclass(frozen=True)
class Chosen(Move):
    """One answer of a form on the desk, for instance `group`, `job` or `length`."""

    what: str
    value: str


@dataclass(frozen=True)
class Progressed(Move):
    """A slow piece of work has come `done` of `whole` far."""

    work: str
    done: int
    whole: int


@dataclass(frozen=True)
class SecretShown(Move):
    """What was issued is shown to the technician, once: a PIN or spare codes."""

    lines: tuple[str, ...]


@dataclass(frozen=True)
class PackageShown(Move):
    """What a package would change is shown: when it was put together, and line by line what.

    Each line is a short word for what it says, and what it says it of. `why` is empty, or a
    short word for why the package can't be taken in.
    """

    package: str
    made_us: int
    lines: tuple[tuple[str, str], ...]
    why: str = ""


@dataclass(frozen=True)
class SheetShown(Move):
    """A printed sheet is shown to be read, part by part: its heading, then its lines.

    `why` is empty, or a short word for why the sheet can't be made.
    """

    sheet: str
    parts: tuple[tuple[str, ...], ...]
    why: str = ""


@dataclass(frozen=True)
class SheetDone(Move):
    """A sheet lies on the stick, read back and found equal; or `why` it does not."""

    why: str = ""
