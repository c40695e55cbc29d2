"""Language and habits that a pupil has chosen, beside the pupil's number; erased with it."""

from __future__ import annotations

from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Add the columns; empty is the school's language, and no habit."""
    op.execute("ALTER TABLE pupils ADD COLUMN language TEXT NOT NULL DEFAULT ''")
    op.execute("ALTER TABLE pupils ADD COLUMN habits TEXT NOT NULL DEFAULT ''")
