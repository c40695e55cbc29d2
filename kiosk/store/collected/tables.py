"""The tables of the collected database as SQLAlchemy Core knows them; `migrations/` makes them."""

from __future__ import annotations

from sqlalchemy import (
    BigInteger,
    Column,
    Identity,
    Integer,
    LargeBinary,
    MetaData,
    SmallInteger,
    Table,
    Text,
)

SCHEMA = "0001"
SCHEMAS = ("0001",)

metadata = MetaData()

branches = Table(
    "branches",
    metadata,
    Column("number", Integer, Identity(), primary_key=True),
    Column("log", Text, nullable=False),
    Column("parent", Integer),
    Column("begins", BigInteger, nullable=False),
    Column("kept_from", BigInteger, nullable=False),
    Column("site", Text, nullable=False),
    Column("machine", Text, nullable=False),
)

stretches = Table(
    "stretches",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("first", BigInteger, primary_key=True),
    Column("last", BigInteger, nullable=False),
    Column("prev", Text, nullable=False),
    Column("head", Text, nullable=False),
)

events = Table(
    "events",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("seq", BigInteger, primary_key=True),
    Column("hash", LargeBinary, nullable=False),
    Column("prev", LargeBinary, nullable=False),
    Column("wall_us", BigInteger, nullable=False),
    Column("quality", SmallInteger, nullable=False),
    Column("kind", Text, nullable=False),
    Column("v", SmallInteger, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

downloads = Table(
    "downloads",
    metadata,
    Column("key", Text, primary_key=True),
    Column("log", Text, nullable=False),
    Column("first", BigInteger, nullable=False),
    Column("last", BigInteger, nullable=False),
    Column("made_us", BigInteger, nullable=False),
    Column("quality", SmallInteger, nullable=False),
    Column("name", Text, nullable=False),
    Column("new", BigInteger, nullable=False),
)

remarks = Table(
    "remarks",
    metadata,
    Column("what", Text, primary_key=True),
    Column("log", Text, primary_key=True),
    Column("first", BigInteger, primary_key=True),
    Column("last", BigInteger, primary_key=True),
    Column("text", Text, primary_key=True),
)

aside = Table(
    "aside",
    metadata,
    Column("key", Text, primary_key=True),
    Column("log", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("seq", BigInteger, nullable=False),
    Column("text", Text, nullable=False),
)

aside_lines = Table(
    "aside_lines",
    metadata,
    Column("key", Text, primary_key=True),
    Column("place", BigInteger, primary_key=True),
    Column("bytes", LargeBinary, nullable=False),
)

fed = Table(
    "fed",
    metadata,
    Column("log", Text, primary_key=True),
    Column("seq", BigInteger, primary_key=True),
    Column("hash", LargeBinary, primary_key=True),
    Column("machine", Text, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

texts = Table(
    "texts",
    metadata,
    Column("log", Text, primary_key=True),
    Column("what", Text, primary_key=True),
    Column("ref", Text, primary_key=True),
    Column("text", Text, primary_key=True),
)
