"""The first tables: events, the chain's end, documents."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_whole = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "events",
        sa.Column("number", _whole, primary_key=True, autoincrement=False),
        sa.Column("key", sa.Text, nullable=False, unique=True),
        sa.Column("crane", sa.Text, nullable=False),
        sa.Column("run", sa.Text),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("person", sa.Text),
        sa.Column("role", sa.Text, nullable=False),
        sa.Column("device", sa.Text, nullable=False),
        sa.Column("at", sa.Text, nullable=False),
        sa.Column("tick", sa.BigInteger, nullable=False),
        sa.Column("received", sa.Text, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("before", sa.Text, nullable=False),
        sa.Column("hash", sa.Text, nullable=False),
    )
    op.create_index("events_of_crane", "events", ["crane", "number"])
    op.create_index("events_of_run", "events", ["run", "number"])
    head = op.create_table(
        "head",
        sa.Column("id", sa.Integer, sa.CheckConstraint("id = 1", name="head_is_one"), primary_key=True),
        sa.Column("number", sa.BigInteger, nullable=False),
        sa.Column("hash", sa.Text, nullable=False),
    )
    op.bulk_insert(head, [{"id": 1, "number": 0, "hash": "0" * 64}])
    op.create_table(
        "documents",
        sa.Column("number", _whole, primary_key=True, autoincrement=False),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("fingerprint", sa.Text, nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.UniqueConstraint("fingerprint", "kind", name="documents_once"),
    )
