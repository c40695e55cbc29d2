"""Runs the migrations on the connection handed in, inside the transaction it has begun."""

from __future__ import annotations

from alembic import context

context.configure(
    connection=context.config.attributes["connection"], version_table="collected_version"
)
context.run_migrations()
