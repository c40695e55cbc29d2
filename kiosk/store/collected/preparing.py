"""Prepares a server: one database, three roles with the least rights each can do its work with.

`NAME_collects` owns the tables; `NAME_reads` may read what reports are made from; `NAME_feeds` is
what kiosks send by: it may only add, and reads, changes and deletes nothing. Nothing that is there
already is changed, so the same may be run again and again.
"""

from __future__ import annotations

import re
import secrets
from collections.abc import Iterator
from typing import NamedTuple

from sqlalchemy import Connection, text

from kiosk.store.collected.database import Database, schema_of

NAME = re.compile("[a-z][a-z0-9_]{0,40}")
ROLES = {
    "collects": "takes downloads in; owns the tables",
    "reads": "reads, for reports; may change nothing",
    "feeds": "kiosks send by it: may only add, and read nothing",
}
SENT = ("fed", "texts")
"""The tables that a kiosk may add to."""

READ = ("collected_version", "branches", "stretches", "events", "downloads", "remarks", "aside")
"""The tables that reports are made from: references only."""


class Done(NamedTuple):
    """One thing that was looked at: `new` says whether it had to be made; `password` if issued."""

    what: str
    new: bool
    password: str = ""


def prepare(admin: Database, name: str) -> Iterator[Done]:
    """Prepare the server that `admin` may create databases and roles on; what was done, in order.

    Raises CollectFault; ValueError for a name that is not small letters, digits and _.
    """
    if not NAME.fullmatch(name):
        raise ValueError(f"{name!r}; allowed: small letters, digits and _, a letter first")
    with admin.session() as connection:
        alone = connection.execution_options(isolation_level="AUTOCOMMIT")
        for role, does in ROLES.items():
            yield _role(alone, f"{name}_{role}", does)
        yield _database(alone, name)
    inside = Database(admin.url.set(database=name).render_as_string(hide_password=False))
    with inside.session() as connection, connection.begin():
        _only_ours(connection, name)
        connection.execute(text(f"SET LOCAL ROLE {name}_collects"))
        before = schema_of(connection)
        now = inside.bring_up_in(connection)
        yield Done(f"tables, schema {now}", now != before)
        _grant(connection, name)
    yield Done(f"{name}_reads may SELECT what reports are made from, no names and no notes", False)
    yield Done(f"{name}_feeds may INSERT into {' and '.join(SENT)}, nothing else", False)


def _role(connection: Connection, role: str, does: str) -> Done:
    asked = text("SELECT 1 FROM pg_roles WHERE rolname = :role")
    if connection.execute(asked, {"role": role}).first():
        return Done(f"role {role}: {does}", False)
    password = secrets.token_urlsafe(18)
    rights = "LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION"
    connection.execute(text(f"CREATE ROLE {role} {rights} PASSWORD '{password}'"))
    return Done(f"role {role}: {does}", True, password)


def _database(connection: Connection, name: str) -> Done:
    asked = text("SELECT 1 FROM pg_database WHERE datname = :name")
    if connection.execute(asked, {"name": name}).first():
        return Done(f"database {name}", False)
    connection.execute(text(f"GRANT {name}_collects TO CURRENT_USER"))
    making = f"CREATE DATABASE {name} OWNER {name}_collects ENCODING 'UTF8' TEMPLATE template0"
    connection.execute(text(making))
    return Done(f"database {name}", True)


def _only_ours(connection: Connection, name: str) -> None:
    """Nobody else gets in, and nobody but the owner makes tables."""
    roles = ", ".join(f"{name}_{role}" for role in ROLES)
    for line in (
        f"REVOKE ALL ON DATABASE {name} FROM PUBLIC",
        f"GRANT CONNECT ON DATABASE {name} TO {roles}",
        "REVOKE ALL ON SCHEMA public FROM PUBLIC",
        f"GRANT USAGE ON SCHEMA public TO {roles}",
        f"GRANT CREATE ON SCHEMA public TO {name}_collects",
        f"ALTER ROLE {name}_feeds SET statement_timeout = '60s'",
    ):
        connection.execute(text(line))


def _grant(connection: Connection, name: str) -> None:
    for line in (
        f"REVOKE ALL ON ALL TABLES IN SCHEMA public FROM {name}_reads",
        f"GRANT SELECT ON {', '.join(READ)} TO {name}_reads",
        f"REVOKE ALL ON ALL TABLES IN SCHEMA public FROM {name}_feeds",
        *(f"GRANT INSERT ON {table} TO {name}_feeds" for table in SENT),
    ):
        connection.execute(text(line))
