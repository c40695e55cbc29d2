"""The language that a pupil has chosen, beside the pupil's number; it is erased with it."""

from __future__ import annotations

from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Add the column; empty is the school's language."""
    op.execute("ALTER TABLE pupils ADD COLUMN language TEXT NOT NULL DEFAULT ''")
