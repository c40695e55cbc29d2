"""The first schema: events in a chain, plans and content by digest, checkpoints, people, notes.

The columns `prev`, `wall_us`, `quality`, `kind` and `v` of an event are copies for finding it;
its `bytes` are what counts.
"""

from __future__ import annotations

from alembic import op

revision = "0001"
down_revision = None

TABLES = (
    """CREATE TABLE logs (
        log TEXT NOT NULL PRIMARY KEY
    ) STRICT""",
    """CREATE TABLE events (
        log TEXT NOT NULL REFERENCES logs (log),
        seq INTEGER NOT NULL CHECK (seq > 0),
        hash TEXT NOT NULL CHECK (length(hash) = 64),
        prev TEXT NOT NULL CHECK (length(prev) = 64),
        wall_us INTEGER NOT NULL,
        quality INTEGER NOT NULL CHECK (quality IN (0, 1, 2)),
        kind TEXT NOT NULL,
        v INTEGER NOT NULL,
        bytes BLOB NOT NULL,
        PRIMARY KEY (log, seq),
        UNIQUE (log, prev)
    ) STRICT""",
    "CREATE INDEX events_by_kind ON events (kind, v, seq)",
    """CREATE TABLE plans (
        digest TEXT NOT NULL PRIMARY KEY,
        bytes BLOB NOT NULL
    ) STRICT""",
    """CREATE TABLE content (
        digest TEXT NOT NULL PRIMARY KEY,
        bytes BLOB NOT NULL
    ) STRICT""",
    """CREATE TABLE checkpoints (
        part TEXT NOT NULL PRIMARY KEY,
        seq INTEGER NOT NULL,
        hash TEXT NOT NULL,
        code TEXT NOT NULL,
        bytes BLOB NOT NULL
    ) STRICT""",
    """CREATE TABLE adults (
        ref TEXT NOT NULL PRIMARY KEY,
        name TEXT NOT NULL,
        role TEXT NOT NULL,
        pin_hash TEXT NOT NULL
    ) STRICT""",
    """CREATE TABLE pupils (
        ref TEXT NOT NULL PRIMARY KEY,
        grp TEXT NOT NULL,
        number INTEGER NOT NULL,
        name TEXT NOT NULL,
        UNIQUE (grp, number)
    ) STRICT""",
    """CREATE TABLE notes (
        note TEXT NOT NULL PRIMARY KEY,
        salt TEXT NOT NULL,
        what TEXT NOT NULL,
        hazard TEXT NOT NULL,
        text TEXT NOT NULL
    ) STRICT""",
)

WRITE_ONCE = ("logs", "events", "plans", "content")


APPLICATION = 0x50494C52
"""Marks the file as a record, in SQLite's header."""


def upgrade() -> None:
    """Make the tables, and the triggers that let nothing change what is written once."""
    op.execute(f"PRAGMA application_id = {APPLICATION}")
    for table in TABLES:
        op.execute(table)
    for table in WRITE_ONCE:
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} are written once'); END"
            )
