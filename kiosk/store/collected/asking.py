"""Questions to the collected tables, each over one connection."""

from __future__ import annotations

from sqlalchemy import Connection, select, text

from kiosk.store.collected.lines import Row
from kiosk.store.collected.standing import Branch, Stretch, joined
from kiosk.store.collected.tables import branches, downloads, events, stretches
from kiosk.store.collected.values import Download

_OWN = select(stretches).where(
    stretches.c.number.in_(select(branches.c.number).where(branches.c.log == text(":log")))
)


def lock(connection: Connection, log: str) -> None:
    """One collection at a time for one log; let go at the end of the transaction."""
    connection.execute(text("SELECT pg_advisory_xact_lock(hashtext(:log))"), {"log": log})


def branches_of(connection: Connection, log: str) -> list[Branch]:
    """All branches of a log, each with the stretches that it shares with its parent."""
    rows = connection.execute(
        select(branches).where(branches.c.log == log).order_by(branches.c.number)
    ).all()
    own: dict[int, list[Stretch]] = {row.number: [] for row in rows}
    for found in connection.execute(_OWN, {"log": log}):
        own[found.number].append(Stretch(*found))
    made: dict[int, Branch] = {}
    for row in rows:
        shared = _before(connection, made[row.parent], row.begins) if row.parent else ()
        whole = (*shared, *joined(own[row.number]))
        made[row.number] = Branch(row.number, row.begins, whole, row.kept_from)
    return list(made.values())


def _before(connection: Connection, parent: Branch, begins: int) -> tuple[Stretch, ...]:
    """A parent's stretches before the line at which a branch leaves it."""
    cut = []
    for stretch in parent.stretches:
        if stretch.last < begins:
            cut.append(stretch)
        elif stretch.first < begins:
            head = hash_of(connection, stretch.number, begins - 1)
            cut.append(stretch._replace(last=begins - 1, head=head))
    return tuple(cut)


def hash_of(connection: Connection, number: int, seq: int) -> str:
    """The hash of one collected line; empty if it is not there."""
    asked = select(events.c.hash).where(events.c.number == number, events.c.seq == seq)
    found = connection.execute(asked).scalar()
    return bytes(found).hex() if found is not None else ""


def ours(connection: Connection, branch: Branch, seq: int) -> str:
    """The hash of a line of a branch; empty if it is not there."""
    for stretch in branch.stretches:
        if seq == stretch.last:
            return stretch.head
        if stretch.first <= seq < stretch.last:
            return hash_of(connection, stretch.number, seq)
    return ""


def row_of(connection: Connection, branch: Branch, seq: int) -> Row | None:
    """One collected line of a branch; None if it is not there."""
    number = branch.holder(seq)
    asked = select(events).where(events.c.number == number, events.c.seq == seq)
    found = connection.execute(asked).first()
    return Row(*found[1:]) if found is not None else None


def site_and_machine(connection: Connection, number: int) -> tuple[str, str]:
    """Where a branch's drill stands, and its name."""
    asked = select(branches.c.site, branches.c.machine).where(branches.c.number == number)
    row = connection.execute(asked).one()
    return row.site, row.machine


def others_of(connection: Connection, log: str, site: str, machine: str) -> list[str]:
    """Other logs of the same drill."""
    asked = select(branches.c.log).where(
        branches.c.site == site, branches.c.machine == machine, branches.c.log != log
    )
    return sorted(set(connection.execute(asked).scalars()))


def later_end(connection: Connection, of: Download) -> int:
    """The last line of a download of the same log that was made earlier and went further."""
    asked = (
        select(downloads.c.last)
        .where(
            downloads.c.log == of.log,
            downloads.c.made_us < of.made_us,
            downloads.c.quality > 0,
            downloads.c.last > of.last,
        )
        .order_by(downloads.c.last.desc())
        .limit(1)
    )
    return int(connection.execute(asked).scalar() or 0) if of.quality else 0
