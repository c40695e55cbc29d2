"""Which package a part of the kiosk's content and lists was taken in from, and its date."""

from __future__ import annotations

from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the table; a record without a row has its content from where it was started with."""
    op.execute(
        "CREATE TABLE packages ("
        " part TEXT NOT NULL PRIMARY KEY,"
        " package TEXT NOT NULL,"
        " made_us INTEGER NOT NULL"
        ") STRICT"
    )
