"""Where a log begins: what retention took away is a beginning of it, and nothing else of it.

A line can be deleted only below the beginning, and a beginning is written once. `bytes` holds the
events that stand for what the lines before it had led to.
"""

from __future__ import annotations

from alembic import op

revision = "0002"
down_revision = "0001"

BEGINS = """CREATE TABLE begins (
    log TEXT NOT NULL REFERENCES logs (log),
    first INTEGER NOT NULL CHECK (first > 1),
    prev TEXT NOT NULL CHECK (length(prev) = 64),
    bytes BLOB NOT NULL,
    PRIMARY KEY (log, first)
) STRICT"""

NO_DELETE = """CREATE TRIGGER events_no_delete BEFORE DELETE ON events
WHEN OLD.seq >= coalesce((SELECT max(first) FROM begins WHERE log = OLD.log), 0)
BEGIN SELECT RAISE(ABORT, 'events are written once'); END"""


def upgrade() -> None:
    """Make the table, and let the events' trigger go by it."""
    op.execute(BEGINS)
    for act in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER begins_no_{act.lower()} BEFORE {act} ON begins "
            f"BEGIN SELECT RAISE(ABORT, 'begins are written once'); END"
        )
    op.execute("DROP TRIGGER events_no_delete")
    op.execute(NO_DELETE)
