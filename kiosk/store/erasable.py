"""What may be erased: adults' names and PIN hashes, what is kept of pupils, texts of notes.

Nothing here is ever in an event or a download; events name people and notes by random
references, and a note's text by a salted digest.
"""

from __future__ import annotations

import secrets
import unicodedata
from collections.abc import Iterable, Mapping
from hashlib import sha256
from typing import NamedTuple

from sqlalchemy import Connection, delete, insert, select, update
from sqlalchemy.dialects.sqlite import insert as upsert

from kiosk.core.model import Adult
from kiosk.store.tables import adults, keys, notes, pupils

TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Letters that turn the direction of writing (Unicode Standard Annex 9)."""


class KeptNote(NamedTuple):
    """A note whose text is kept: its id, kind, hazard and text."""

    note: str
    what: str
    hazard: str
    text: str


def keep_adult(connection: Connection, adult: Adult, pin_hash: str) -> None:
    """Keep an adult's name, role and PIN hash; one already known is changed."""
    row = {"name": adult.name, "role": adult.role, "pin_hash": pin_hash}
    put = upsert(adults).values(ref=adult.ref, **row)
    connection.execute(put.on_conflict_do_update(index_elements=["ref"], set_=row))


def pin_hash(connection: Connection, ref: str) -> str | None:
    """The hash of the adult's PIN; None for somebody unknown or forgotten."""
    return connection.execute(select(adults.c.pin_hash).where(adults.c.ref == ref)).scalar()


def forget_adult(connection: Connection, ref: str) -> None:
    """Erase an adult's name and PIN hash; the reference stays in the events."""
    connection.execute(delete(adults).where(adults.c.ref == ref))


def forget_pin(connection: Connection, ref: str) -> None:
    """No PIN of the adult works any more; the name stays."""
    connection.execute(update(adults).where(adults.c.ref == ref).values(pin_hash=""))


def known_adults(connection: Connection) -> tuple[Adult, ...]:
    """All adults kept, by name."""
    rows = connection.execute(select(adults).order_by(adults.c.name, adults.c.ref))
    return tuple(Adult(row.ref, row.name, row.role) for row in rows)


def pupil_refs(connection: Connection, group: str, numbers: Iterable[int]) -> dict[int, str]:
    """The lasting reference of each list number in a group; new numbers get one at random."""
    rows = connection.execute(select(pupils.c.number, pupils.c.ref).where(pupils.c.grp == group))
    known = {row.number: row.ref for row in rows}
    wanted = tuple(dict.fromkeys(numbers))
    new = {number: f"p{secrets.token_hex(6)}" for number in wanted if number not in known}
    if new:
        named = [{"ref": r, "grp": group, "number": n, "name": ""} for n, r in new.items()]
        connection.execute(insert(pupils), named)
    return {number: {**known, **new}[number] for number in wanted}


def pupil_ref(connection: Connection, group: str, number: int) -> str | None:
    """The reference of a list number in a group; None if it never had one, or it was erased."""
    asked = select(pupils.c.ref).where(pupils.c.grp == group, pupils.c.number == number)
    return connection.execute(asked).scalar()


def known_pupils(connection: Connection) -> tuple[str, ...]:
    """The references of all pupils kept."""
    return tuple(connection.execute(select(pupils.c.ref)).scalars())


def known_notes(connection: Connection) -> tuple[KeptNote, ...]:
    """All notes kept."""
    rows = connection.execute(select(notes.c.note, notes.c.what, notes.c.hazard, notes.c.text))
    return tuple(KeptNote(*row) for row in rows)


def name_pupils(connection: Connection, names: Mapping[str, str]) -> None:
    """Keep names for references, where the school has them shown; an empty name erases one."""
    for ref, name in names.items():
        connection.execute(update(pupils).where(pupils.c.ref == ref).values(name=name))


def keep_wish(connection: Connection, ref: str, wish: str, said: str) -> None:
    """Keep what a pupil wishes: a `language`, or `habits` as words with spaces between."""
    connection.execute(update(pupils).where(pupils.c.ref == ref).values({wish: said}))


def wishes(connection: Connection, wish: str) -> dict[str, str]:
    """The `language` or `habits` that pupils have chosen, by their references."""
    said = pupils.c[wish]
    asked = select(pupils.c.ref, said).where(said != "")
    return {row.ref: row[1] for row in connection.execute(asked)}


def erase(connection: Connection, what: str, ref: str) -> None:
    """Erase what is kept of an `adult`, a `pupil` or a `note` under its reference."""
    table, column = {"adult": (adults, "ref"), "pupil": (pupils, "ref"), "note": (notes, "note")}[
        what
    ]
    connection.execute(delete(table).where(table.c[column] == ref))
    connection.execute(delete(keys).where(keys.c.ref == ref))


def cleaned(text: str) -> str:
    """A note's text as it is kept: composed letters (NFC), lines ended by a line feed, and none
    of what a reader can't see but a file or a page might obey: control letters, lone surrogates,
    and the letters that turn the direction of writing.
    """
    lines = "\n".join(text.splitlines())
    kept = (c for c in lines if c == "\n" or not _is_hidden(c))
    return unicodedata.normalize("NFC", "".join(kept)).strip()


def _is_hidden(letter: str) -> bool:
    return unicodedata.category(letter) in ("Cc", "Cs") or letter in TURNING


def keep_note(connection: Connection, what: str, hazard: str, text: str) -> tuple[str, str]:
    """Keep a note's cleaned text; its random id, and the salted digest that stands in the chain."""
    text = cleaned(text)
    note, salt = f"n{secrets.token_hex(6)}", secrets.token_hex(16)
    row = {"note": note, "salt": salt, "what": what, "hazard": hazard, "text": text}
    connection.execute(insert(notes).values(**row))
    return note, note_digest(salt, text)


def note_digest(salt: str, text: str) -> str:
    """SHA-256 over salt and text: nobody can guess a short text from it without the salt."""
    return sha256(bytes.fromhex(salt) + text.encode()).hexdigest()


def note_text(connection: Connection, note: str) -> tuple[str, str] | None:
    """A note's text and its digest, to hold against the chain; None once it is erased."""
    row = connection.execute(select(notes).where(notes.c.note == note)).first()
    return (row.text, note_digest(row.salt, row.text)) if row else None


def erase_note(connection: Connection, note: str) -> None:
    """Erase a note's text and salt; its event stays, and says nothing any more."""
    connection.execute(delete(notes).where(notes.c.note == note))
