"""One command prepares a server; each role can do its work and nothing more."""

from __future__ import annotations

from pathlib import Path

import psycopg
import pytest
from click.testing import CliRunner
from psycopg.errors import InsufficientPrivilege

from kiosk.cli import group
from tests.collect.drills import Card
from tests.collect.server import Server

pytestmark = pytest.mark.collect

TABLES = (
    "branches stretches events downloads remarks aside aside_lines fed texts collected_version"
).split()
ADD = "INSERT INTO fed VALUES ('a', 1, sha256('x'), 'drill-1', 'x')"


@pytest.fixture(scope="module")
def prepared(server: Server) -> str:
    """What the command said about a database called `shop`."""
    done = CliRunner().invoke(group, ["database", "--server", server.address(), "--name", "shop"])
    assert done.exit_code == 0, done.output
    return done.output


def test_it_says_what_it_did_and_the_second_time_that_it_is_so(
    server: Server, prepared: str
) -> None:
    again = CliRunner().invoke(group, ["database", "--server", server.address(), "--name", "shop"])

    assert prepared.count("; password ") == 3
    assert "made: database shop" in prepared
    assert "shop_feeds may INSERT into fed and texts, nothing else" in prepared
    assert again.exit_code == 0
    assert "password" not in again.output
    assert "is so: database shop" in again.output


@pytest.mark.parametrize("table", TABLES)
def test_the_feeding_role_reads_changes_and_deletes_nothing(
    server: Server, prepared: str, table: str
) -> None:
    with server.connect("shop", "shop_feeds") as connection:
        for act in (
            f"SELECT * FROM {table}",
            f"SELECT count(*) FROM {table}",
            f"UPDATE {table} SET {'version_num' if 'version' in table else first_of(table)} = NULL",
            f"DELETE FROM {table}",
            f"TRUNCATE {table} CASCADE",
            f"DROP TABLE {table}",
            f"ALTER TABLE {table} ADD COLUMN more text",
            f"COPY {table} TO STDOUT",
        ):
            with pytest.raises(InsufficientPrivilege):
                connection.execute(act)


def first_of(table: str) -> str:
    return {"branches": "log", "stretches": "number", "events": "number"}.get(
        table,
        "text"
        if table in ("remarks", "texts")
        else "log"
        if table in ("downloads", "aside", "fed")
        else "key",
    )


def test_the_feeding_role_adds_and_makes_nothing_of_its_own(server: Server, prepared: str) -> None:
    with server.connect("shop", "shop_feeds") as connection:
        added = connection.execute(f"{ADD} ON CONFLICT DO NOTHING").rowcount
        again = connection.execute(f"{ADD} ON CONFLICT DO NOTHING").rowcount
        for act in ("CREATE TABLE own (a int)", f"{ADD} RETURNING bytes", "CREATE ROLE more"):
            with pytest.raises(InsufficientPrivilege):
                connection.execute(act)
        with pytest.raises(psycopg.errors.InsufficientPrivilege):
            connection.execute("INSERT INTO events SELECT * FROM events")
    assert (added, again) == (1, 0)


def test_the_reading_role_only_reads(server: Server, prepared: str) -> None:
    with server.connect("shop", "shop_reads") as connection:
        connection.execute("SELECT count(*) FROM events")
        kept_from_it = [f"SELECT * FROM {table}" for table in ("texts", "fed", "aside_lines")]
        for act in (ADD, "DELETE FROM events", "CREATE TABLE own (a int)", *kept_from_it):
            with pytest.raises(InsufficientPrivilege):
                connection.execute(act)


def test_the_collecting_role_collects(server: Server, prepared: str, tmp_path: Path) -> None:
    Card().used(5).taken(tmp_path)

    into = server.address("shop", "shop_collects")
    done = CliRunner().invoke(group, ["collect", str(tmp_path), "--into", into])

    assert done.exit_code == 0, done.output
    assert "5 lines new" in done.output


def test_a_name_that_is_no_name_is_told(server: Server) -> None:
    words = ["database", "--server", server.address(), "--name", "Shop; DROP"]

    assert "allowed: small letters" in CliRunner().invoke(group, words).output
