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


def bring_up(connection: Connection) -> str:
    """Run what migrations are missing; the schema it now stands at. Raises NewerSchema."""
    now = schema_of(connection)
    if now and now not in SCHEMAS:
        raise NewerSchema(f"schema {now}; known here: {SCHEMA}")
    if now != SCHEMA:
        _migrate(connection)
    return SCHEMA


def _migrate(connection: Connection) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
