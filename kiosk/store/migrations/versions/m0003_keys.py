"""What else an adult is let in with, and the roster that was taken in.

`keys` holds hashes of badges and spare codes; `groups` and `listed` today's roster, whose pupils
stand in `pupils` under their lasting references. All of it may be erased.
"""

from __future__ import annotations

from alembic import op

revision = "0003"
down_revision = "0002"

TABLES = (
    """CREATE TABLE keys (
        ref TEXT NOT NULL,
        what TEXT NOT NULL CHECK (what IN ('badge', 'code')),
        number INTEGER NOT NULL,
        hash TEXT NOT NULL UNIQUE,
        PRIMARY KEY (ref, what, number)
    ) STRICT""",
    """CREATE TABLE groups (
        grp TEXT NOT NULL PRIMARY KEY,
        name TEXT NOT NULL,
        place INTEGER NOT NULL
    ) STRICT""",
    """CREATE TABLE listed (
        grp TEXT NOT NULL,
        number INTEGER NOT NULL,
        ref TEXT NOT NULL,
        level TEXT NOT NULL,
        beside INTEGER NOT NULL,
        visitor INTEGER NOT NULL,
        PRIMARY KEY (grp, number)
    ) STRICT""",
)


def upgrade() -> None:
    """Make the tables."""
    for table in TABLES:
        op.execute(table)
