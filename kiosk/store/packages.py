"""What was taken in from a stick: which package each part is from, and the roster with it.

A roster is handed in beforehand and written in the transaction of its event: so events and
lists can't be apart, wherever the power goes.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from sqlalchemy import Connection, inspect, select
from sqlalchemy.dialects.sqlite import insert as upsert

from kiosk.core.model import Group
from kiosk.store.files import beside
from kiosk.store.tables import packages

COPIES, SCHOOL = ".in", "school"
STARTED_WITH = "started with"
"""Stands for a part where the digest is that of the roster file the kiosk was started with."""


class Taken(NamedTuple):
    """A part, the digest of the package that it is from, and when that was put together."""

    part: str
    package: str
    made_us: int


class Lists(NamedTuple):
    """A roster to be written with its event; `names` where pupils' names are kept.

    `started` is the digest of the file where the kiosk was started with it.
    """

    groups: tuple[Group, ...]
    names: bool
    started: str = ""


def copies(record: Path) -> Path:
    """The folder beside a record in which copies of packages lie, each named by its digest."""
    return beside(record, COPIES)


def school_of(record: Path, taken: Iterable[Taken]) -> Path | None:
    """The school's folder as it was taken in last; None where none was."""
    found = next((one.package for one in taken if one.part == SCHOOL), "")
    return copies(record) / found / SCHOOL if found else None


def keep(connection: Connection, package: str, made_us: int, parts: Iterable[str]) -> None:
    """Keep which package these parts are from."""
    row = {"package": package, "made_us": made_us}
    for part in parts:
        put = upsert(packages).values(part=part, **row)
        connection.execute(put.on_conflict_do_update(index_elements=["part"], set_=row))


def taken(connection: Connection) -> tuple[Taken, ...]:
    """What was taken in last of each part."""
    if not inspect(connection).has_table(packages.name):
        return ()  # a record of an older schema, only read
    return tuple(Taken(*row) for row in connection.execute(select(packages)))
