"""Badges and spare codes as hashes, and the roster that was taken in; all of it may be erased."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sqlalchemy import Connection, delete, insert, inspect, select, update

from kiosk.core.model import Group, Level, Pupil
from kiosk.store import erasable
from kiosk.store.tables import groups, keys, listed, pupils

BADGE, CODE = "badge", "code"


def keep_badge(connection: Connection, ref: str, hash: str) -> bool:
    """Keep an adult's badge in place of the one before; False if it is another adult's."""
    owner = badge_owner(connection, hash)
    if owner and owner != ref:
        return False
    _forget(connection, ref, BADGE)
    connection.execute(insert(keys).values(ref=ref, what=BADGE, number=1, hash=hash))
    return True


def badge_owner(connection: Connection, hash: str) -> str:
    """Whose badge has this hash; empty for nobody's."""
    asked = select(keys.c.ref).where(keys.c.what == BADGE, keys.c.hash == hash)
    return str(connection.execute(asked).scalar() or "")


def keep_codes(connection: Connection, ref: str, hashes: Sequence[str]) -> None:
    """Keep an adult's spare codes, numbered from 1, in place of those before."""
    _forget(connection, ref, CODE)
    rows = [{"ref": ref, "what": CODE, "number": n, "hash": one} for n, one in enumerate(hashes, 1)]
    connection.execute(insert(keys), rows)


def code_number(connection: Connection, ref: str, hash: str) -> int:
    """The number of an adult's unused spare code with this hash; 0 if there is none."""
    asked = select(keys.c.number).where(keys.c.ref == ref, keys.c.what == CODE, keys.c.hash == hash)
    return int(connection.execute(asked).scalar() or 0)


def use_up(connection: Connection, ref: str, number: int) -> None:
    """A spare code works once."""
    used = (keys.c.ref == ref) & (keys.c.what == CODE) & (keys.c.number == number)
    connection.execute(delete(keys).where(used))


def forget_keys(connection: Connection, ref: str) -> None:
    """No badge and no spare code of the adult works any more."""
    connection.execute(delete(keys).where(keys.c.ref == ref))


def _forget(connection: Connection, ref: str, what: str) -> None:
    connection.execute(delete(keys).where(keys.c.ref == ref, keys.c.what == what))


# --- the roster ----------------------------------------------------------------------------------


def keep_groups(connection: Connection, wanted: Iterable[Group], names: bool) -> None:
    """Keep these groups as today's roster, whole; pupils' names only where they are wanted.

    The pupils have their lasting references; who is listed no more keeps the reference.
    """
    connection.execute(delete(listed))
    connection.execute(delete(groups))
    for place, group in enumerate(wanted):
        row = {"grp": group.id, "name": group.name, "place": place}
        connection.execute(insert(groups).values(**row))
        rows = [_listed(group.id, pupil) for pupil in group.pupils]
        if rows:
            connection.execute(insert(listed), rows)
        kept = {p.ref: p.name if names else "" for p in group.pupils}
        erasable.name_pupils(connection, kept)


def _listed(group: str, pupil: Pupil) -> Mapping[str, object]:
    return {
        "grp": group,
        "number": pupil.number,
        "ref": pupil.ref,
        "level": pupil.level.word,
        "beside": int(pupil.beside),
        "visitor": int(pupil.visitor),
    }


def kept_groups(connection: Connection) -> tuple[Group, ...]:
    """Today's roster: its groups in order, with the pupils by number."""
    if not inspect(connection).has_table(groups.name):
        return ()  # a record of an older schema, only read
    order = select(groups).order_by(groups.c.place)
    return tuple(
        Group(row.grp, row.name, _pupils(connection, row.grp)) for row in connection.execute(order)
    )


def _pupils(connection: Connection, group: str) -> tuple[Pupil, ...]:
    asked = (
        select(listed, pupils.c.name)
        .outerjoin(pupils, pupils.c.ref == listed.c.ref)
        .where(listed.c.grp == group)
        .order_by(listed.c.number)
    )
    return tuple(
        Pupil(
            row.ref,
            row.number,
            Level(row.level.replace("_", " ")),
            row.name or "",
            bool(row.beside),
            bool(row.visitor),
        )
        for row in connection.execute(asked)
    )


def list_anew(connection: Connection) -> None:
    """Give a new reference to every list number whose old one was erased."""
    known = select(pupils.c.ref)
    gone = connection.execute(select(listed.c.grp, listed.c.number).where(~listed.c.ref.in_(known)))
    for group, number in gone.all():
        ref = erasable.pupil_refs(connection, group, (number,))[number]
        at = (listed.c.grp == group) & (listed.c.number == number)
        connection.execute(update(listed).where(at).values(ref=ref))
