"""Brings a record to the newest schema, all of it or nothing, in the caller's transaction."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection, inspect, text

from kiosk.store.tables import SCHEMA, SCHEMAS

MIGRATIONS = Path(__file__).parent / "migrations"


class NewerSchema(Exception):
    """The record was made by a newer version of this software."""


def schema_of(connection: Connection) -> str:
    """The migration that the record stands at; empty for a record just made."""
    if not inspect(connection).has_table("alembic_version"):
        return ""
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return str(found or "")


def is_known(connection: Connection, now: str) -> bool:
    """Whether this version can go on with a record at the schema `now`.

    A later one only adds tables and columns with defaults, so that the version before an update
    goes on with the record after it. A migration that does more sets `PRAGMA user_version` to its
    own number: older software then leaves the record alone.
    """
    if now in SCHEMAS:
        return True
    needed = connection.exec_driver_sql("PRAGMA user_version").scalar() or 0
    return now.isdigit() and now > SCHEMA and int(needed) <= int(SCHEMA)


def bring_up(connection: Connection) -> str:
    """Run what migrations are missing; the schema it now stands at. Raises NewerSchema.

    A later schema that only adds to this one is left as it is.
    """
    now = schema_of(connection)
    if now and not is_known(connection, now):
        raise NewerSchema(f"schema {now}; known here: {SCHEMA}")
    if now < SCHEMA:
        _migrate(connection)
    return max(now, SCHEMA)


def _migrate(connection: Connection) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
