"""Whom or what an erasure means: the same answer for the running kiosk and for the command line."""

from __future__ import annotations

from typing import Protocol

from kiosk.core.kiosk import Kiosk
from kiosk.core.model import Adult
from kiosk.people.issuing import NotPossible, adult_to_revoke, named


class Names(Protocol):
    """What is asked of the record."""

    def adults(self) -> tuple[Adult, ...]: ...

    def pupil_ref(self, group: str, number: int) -> str | None: ...

    def note_text(self, note: str) -> tuple[str, str] | None: ...


def to_erase(names: Names, kiosk: Kiosk, what: str, asked: str) -> str | NotPossible:
    """The reference behind an adult's name, a pupil's `NUMBER GROUP`, or a note's id."""
    match what:
        case "adult":
            return _adult(names, kiosk, asked)
        case "pupil":
            return _pupil(names, kiosk, asked)
        case "note":
            return asked if names.note_text(asked) else NotPossible(f"no note {asked!r} is kept")
    return NotPossible(f"{what!r} can't be erased; allowed: adult, pupil, note")


def _adult(names: Names, kiosk: Kiosk, asked: str) -> str | NotPossible:
    """An adult in use must be one who can be revoked; one revoked before has only a name left."""
    known = names.adults()
    gone = named([a for a in known if not kiosk.adults.find(a.ref)], asked)
    if gone is not None:
        return gone.ref
    found = adult_to_revoke(known, kiosk.adults, asked)
    return found if isinstance(found, NotPossible) else found.ref


def _pupil(names: Names, kiosk: Kiosk, asked: str) -> str | NotPossible:
    number, _, group = asked.partition(" ")
    found = names.pupil_ref(group, int(number)) if number.isdigit() else None
    if found is None:
        return NotPossible(f"nobody is kept as number {number} of {group!r}")
    if kiosk.session and kiosk.session.pupil == found:
        return NotPossible(f"number {number} of {group!r} is at the drill; wait until done")
    return found
