"""Connections to the collected database, its schema brought up, its faults in plain words."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import psycopg
from alembic import command
from alembic.config import Config
from sqlalchemy import URL, Connection, Engine, create_engine, inspect, make_url, text
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.pool import NullPool

from kiosk.store.collected.faults import CollectFault, fault_of, where
from kiosk.store.collected.tables import SCHEMA, SCHEMAS

MIGRATIONS = Path(__file__).parent / "migrations"
DRIVER = "postgresql+psycopg"
OLDEST = 150_000
WAIT_S = 10
SERVERS_OWN = ("postgres", "template0", "template1")
ONE_AT_A_TIME = 7_455_737  # the key of the lock that migrations hold


class Database:
    """The collected database under one address; each `session` is one connection."""

    def __init__(self, address: str) -> None:
        """Takes `postgresql+psycopg://...` with what libpq knows as options, such as `sslmode`.

        Raises CollectFault for another kind of address; nothing is connected yet.
        """
        self.url = _url(address)
        self._engine = _engine(self.url)

    @contextmanager
    def session(self) -> Iterator[Connection]:
        """A connection; every error of it or of the server as a CollectFault."""
        try:
            with self._engine.connect() as connection:
                yield connection
        except (SQLAlchemyError, psycopg.Error, OSError) as error:
            raise fault_of(error, self.url) from error

    def bring_up(self) -> str:
        """Run what migrations are missing, all or none; the schema that it then stands at."""
        with self.session() as connection, connection.begin():
            return self.bring_up_in(connection)

    def bring_up_in(self, connection: Connection) -> str:
        """The same in a transaction of the caller's."""
        if int(connection.execute(text("SHOW server_version_num")).scalar() or 0) < OLDEST:
            raise CollectFault("old_server", where(self.url))
        if self.url.database in SERVERS_OWN:
            raise CollectFault("servers_own", where(self.url))
        now = schema_of(connection)
        if now != SCHEMA:
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": ONE_AT_A_TIME})
            now = schema_of(connection)
        if now and now not in SCHEMAS:
            raise CollectFault("newer", where(self.url), f"schema {now}")
        if now != SCHEMA:
            _migrate(connection)
        return SCHEMA


def _url(address: str) -> URL:
    try:
        url = make_url(address)
    except SQLAlchemyError:
        raise CollectFault("address", repr(address.rsplit("@")[-1][:60])) from None
    if url.drivername != DRIVER or not url.database:
        raise CollectFault("address", f"{url.drivername}://{url.database or ''}")
    return url


def _engine(url: URL) -> Engine:
    """Dead networks are found out within seconds, unless the address says otherwise."""
    quick = {
        "connect_timeout": str(WAIT_S),
        "keepalives_idle": "10",
        "keepalives_interval": "5",
        "keepalives_count": "3",
        "tcp_user_timeout": "30000",
        "application_name": "pillarside",
    }
    return create_engine(url.update_query_dict({**quick, **dict(url.query)}), poolclass=NullPool)


def schema_of(connection: Connection) -> str:
    """The schema that the tables stand at; empty if there are none."""
    if not inspect(connection).has_table("collected_version"):
        return ""
    return str(connection.execute(text("SELECT version_num FROM collected_version")).scalar() or "")


def _migrate(connection: Connection) -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
