"""What a record keeps beside the chain: people and notes, which may be erased, and content."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sqlalchemy import select
from sqlalchemy.dialects.sqlite import insert as upsert

from kiosk.core.model import Adult, Content, Group
from kiosk.store import erasable, packages, people
from kiosk.store.connected import Connected
from kiosk.store.erasable import KeptNote
from kiosk.store.files import keep_doubt
from kiosk.store.packages import STARTED_WITH, Lists, Taken
from kiosk.store.shapes import content_to_bytes, from_bytes
from kiosk.store.tables import content


class Kept:
    """The part of a record that is not the chain; every call is one transaction."""

    _connected: Connected
    _lists: Lists | None = None

    def keep_adult(self, adult: Adult, pin_hash: str) -> None:
        """Keep an adult's name, role and PIN hash; one already known is changed."""
        with self._connected.transaction() as connection:
            erasable.keep_adult(connection, adult, pin_hash)

    def pin_hash(self, ref: str) -> str | None:
        """The hash of the adult's PIN; None for somebody unknown or forgotten."""
        with self._connected.transaction() as connection:
            return erasable.pin_hash(connection, ref)

    def forget_adult(self, ref: str) -> None:
        """Erase an adult's name and PIN hash; the reference stays in the events."""
        with self._connected.transaction() as connection:
            erasable.forget_adult(connection, ref)

    def adults(self) -> tuple[Adult, ...]:
        """All adults kept, by name."""
        with self._connected.transaction() as connection:
            return erasable.known_adults(connection)

    def keep_badge(self, ref: str, hash: str) -> bool:
        """Keep the hash of an adult's badge; False if it is another adult's."""
        with self._connected.transaction() as connection:
            return people.keep_badge(connection, ref, hash)

    def badge_owner(self, hash: str) -> str:
        """Whose badge has this hash; empty for nobody's."""
        with self._connected.transaction() as connection:
            return people.badge_owner(connection, hash)

    def keep_codes(self, ref: str, hashes: Sequence[str]) -> None:
        """Keep the hashes of an adult's spare codes in place of those before."""
        with self._connected.transaction() as connection:
            people.keep_codes(connection, ref, hashes)

    def code_number(self, ref: str, hash: str) -> int:
        """The number of an adult's unused spare code with this hash; 0 if there is none."""
        with self._connected.transaction() as connection:
            return people.code_number(connection, ref, hash)

    def prepare_groups(
        self, groups: Iterable[Group], names: bool = False, started: str = ""
    ) -> None:
        """Get ready to keep these groups as today's roster, whole, with the event that tells it.

        `started` is the digest of the file where the kiosk was started with it.
        """
        self._lists = Lists(tuple(groups), names, started)

    def taken_in(self) -> tuple[Taken, ...]:
        """Which package each part that came from a stick is from."""
        with self._connected.transaction() as connection:
            return packages.taken(connection)

    def keep_start(self, digest: str) -> None:
        """Keep which roster file the kiosk was started with last."""
        with self._connected.transaction() as connection:
            packages.keep(connection, digest, 0, (STARTED_WITH,))

    def started_with(self) -> str:
        """The digest of that roster file; empty if there never was one."""
        return next((t.package for t in self.taken_in() if t.part == STARTED_WITH), "")

    def groups(self) -> tuple[Group, ...]:
        """Today's roster, as it was taken in last; whoever was erased is somebody new."""
        with self._connected.transaction() as connection:
            people.list_anew(connection)
            return people.kept_groups(connection)

    def pupil_refs(self, group: str, numbers: Iterable[int]) -> dict[int, str]:
        """The lasting reference of each list number in a group; new numbers get one at random."""
        with self._connected.transaction() as connection:
            return erasable.pupil_refs(connection, group, numbers)

    def pupil_ref(self, group: str, number: int) -> str | None:
        """The reference of a list number in a group; None if it has none."""
        with self._connected.transaction() as connection:
            return erasable.pupil_ref(connection, group, number)

    def known_notes(self) -> tuple[KeptNote, ...]:
        """All notes whose text is kept."""
        with self._connected.transaction() as connection:
            return erasable.known_notes(connection)

    def name_pupils(self, names: Mapping[str, str]) -> None:
        """Keep names for references, where the school has them shown; an empty name erases one."""
        with self._connected.transaction() as connection:
            erasable.name_pupils(connection, names)

    def keep_language(self, ref: str, language: str) -> None:
        """Keep the language that a pupil has chosen."""
        with self._connected.transaction() as connection:
            erasable.keep_wish(connection, ref, "language", language)

    def keep_habits(self, ref: str, habits: str) -> None:
        """Keep how a pupil uses the screen."""
        with self._connected.transaction() as connection:
            erasable.keep_wish(connection, ref, "habits", habits)

    def habits(self) -> dict[str, str]:
        """How pupils use the screen, by their references."""
        with self._connected.transaction() as connection:
            return erasable.wishes(connection, "habits")

    def languages(self) -> dict[str, str]:
        """The languages chosen, by the pupils' references."""
        with self._connected.transaction() as connection:
            return erasable.wishes(connection, "language")

    def keep_note(self, what: str, hazard: str, text: str) -> tuple[str, str]:
        """Keep a note's text; its random id and the salted digest for its event."""
        with self._connected.transaction() as connection:
            return erasable.keep_note(connection, what, hazard, text)

    def note_text(self, note: str) -> tuple[str, str] | None:
        """A note's text and its digest; None once it is erased."""
        with self._connected.transaction() as connection:
            return erasable.note_text(connection, note)

    def erase_note(self, note: str) -> None:
        """Erase a note's text; its event stays."""
        with self._connected.transaction() as connection:
            erasable.erase_note(connection, note)

    def keep_content(self, found: Content) -> str:
        """Keep content once and for all; the digest it is found by."""
        digest, data = content_to_bytes(found)
        with self._connected.transaction() as connection:
            put = upsert(content).values(digest=digest, bytes=data)
            connection.execute(put.on_conflict_do_nothing())
        return digest

    def doubt(self, text: str) -> None:
        """Old lines were found amiss: the next opening sets the record aside."""
        keep_doubt(self._connected.path, text)

    def content(self, digest: str) -> Content | None:
        """The content kept under a digest."""
        with self._connected.transaction() as connection:
            found = select(content.c.bytes).where(content.c.digest == digest)
            data = connection.execute(found).scalar()
        return None if data is None else from_bytes(data, Content)
