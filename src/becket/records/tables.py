"""The tables of the store: events in a chain, the chain's end, documents.

In:    nothing.
Out:   table records of SQLAlchemy; the migrations make the same tables in the database.
Never: a connection.
"""

from __future__ import annotations

from typing import Final

from sqlalchemy import BigInteger, CheckConstraint, Column, Integer, MetaData, Table, Text, UniqueConstraint

Whole: Final = BigInteger().with_variant(Integer, "sqlite")  # SQLite's own row number wants the word INTEGER
VERSION_TABLE: Final = "becket_version"  # of Alembic; a name of our own, so that it meets no other program's

metadata: Final = MetaData()

events: Final = Table(
    "events",
    metadata,
    Column("number", Whole, primary_key=True, autoincrement=False),  # from 1, no gap
    Column("key", Text, nullable=False, unique=True),  # made by the device
    Column("crane", Text, nullable=False),
    Column("run", Text),
    Column("kind", Text, nullable=False),
    Column("person", Text),
    Column("role", Text, nullable=False),
    Column("device", Text, nullable=False),
    Column("at", Text, nullable=False),  # the device's clock
    Column("tick", BigInteger, nullable=False),
    Column("received", Text, nullable=False),  # the server's clock
    Column("body", Text, nullable=False),  # the canonical text; the columns above repeat it
    Column("before", Text, nullable=False),  # hash of the event before
    Column("hash", Text, nullable=False),
)

head: Final = Table(
    "head",
    metadata,
    Column("id", Integer, CheckConstraint("id = 1", name="head_is_one"), primary_key=True, autoincrement=False),
    Column("number", BigInteger, nullable=False),  # of the last event
    Column("hash", Text, nullable=False),
)

documents: Final = Table(
    "documents",
    metadata,
    Column("number", Whole, primary_key=True, autoincrement=False),  # from 1, in the order kept
    Column("kind", Text, nullable=False),
    Column("fingerprint", Text, nullable=False),
    Column("text", Text, nullable=False),
    UniqueConstraint("fingerprint", "kind", name="documents_once"),
)
