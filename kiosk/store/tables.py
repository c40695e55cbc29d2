"""The tables as SQLAlchemy Core knows them; `migrations/` makes them."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Integer, LargeBinary, MetaData, Table, Text

SCHEMA = "0005"
"""The newest migration here. What a later one may do is said in `kiosk.store.schema.is_known`."""

SCHEMAS = ("0001", "0002", "0003", "0004", "0005")

metadata = MetaData()

logs = Table("logs", metadata, Column("log", Text, primary_key=True))

events = Table(
    "events",
    metadata,
    Column("log", Text, ForeignKey("logs.log"), primary_key=True),
    Column("seq", Integer, primary_key=True),
    Column("hash", Text, nullable=False),
    Column("prev", Text, nullable=False),
    Column("wall_us", Integer, nullable=False),
    Column("quality", Integer, nullable=False),
    Column("kind", Text, nullable=False),
    Column("v", Integer, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

begins = Table(
    "begins",
    metadata,
    Column("log", Text, ForeignKey("logs.log"), primary_key=True),
    Column("first", Integer, primary_key=True),
    Column("prev", Text, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

plans = Table(
    "plans",
    metadata,
    Column("digest", Text, primary_key=True),
    Column("bytes", LargeBinary, nullable=False),
)

content = Table(
    "content",
    metadata,
    Column("digest", Text, primary_key=True),
    Column("bytes", LargeBinary, nullable=False),
)

checkpoints = Table(
    "checkpoints",
    metadata,
    Column("part", Text, primary_key=True),
    Column("seq", Integer, nullable=False),
    Column("hash", Text, nullable=False),
    Column("code", Text, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

adults = Table(
    "adults",
    metadata,
    Column("ref", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("role", Text, nullable=False),
    Column("pin_hash", Text, nullable=False),
)

pupils = Table(
    "pupils",
    metadata,
    Column("ref", Text, primary_key=True),
    Column("grp", Text, nullable=False),
    Column("number", Integer, nullable=False),
    Column("name", Text, nullable=False),
    Column("language", Text, nullable=False, server_default=""),
    Column("habits", Text, nullable=False, server_default=""),
)

notes = Table(
    "notes",
    metadata,
    Column("note", Text, primary_key=True),
    Column("salt", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("hazard", Text, nullable=False),
    Column("text", Text, nullable=False),
)

keys = Table(
    "keys",
    metadata,
    Column("ref", Text, primary_key=True),
    Column("what", Text, primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("hash", Text, nullable=False, unique=True),
)

groups = Table(
    "groups",
    metadata,
    Column("grp", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("place", Integer, nullable=False),
)

listed = Table(
    "listed",
    metadata,
    Column("grp", Text, primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("ref", Text, nullable=False),
    Column("level", Text, nullable=False),
    Column("beside", Integer, nullable=False),
    Column("visitor", Integer, nullable=False),
)

packages = Table(
    "packages",
    metadata,
    Column("part", Text, primary_key=True),
    Column("package", Text, nullable=False),
    Column("made_us", Integer, nullable=False),
)
