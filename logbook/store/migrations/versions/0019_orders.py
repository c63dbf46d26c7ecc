"""Customers, mixes, what they order and what was packed; how long a cut crop keeps."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0019"
down_revision = "0018"
branch_labels = None
depends_on = None


def _of_entry(table: str) -> tuple[sa.Column[int], sa.ForeignKeyConstraint]:
    return (
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f(f"fk_{table}_entry_id_entry")
        ),
    )


def _names(table: str, column: str, of: str, key: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(
        [column], [f"{of}.{key}"], name=op.f(f"fk_{table}_{column}_{of}")
    )


def _wanted() -> tuple[sa.Column[Any], ...]:
    return (
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("template_id", sa.Integer(), nullable=True),
        sa.Column("mix_id", sa.Integer(), nullable=True),
        sa.Column("packs", sa.Integer(), nullable=False),
        sa.Column("pack_grams", sa.Float(), nullable=True),
    )


def upgrade() -> None:
    """Make the tables; nobody has said yet how long a crop keeps."""
    op.create_table(
        "customer",
        *_of_entry("customer"),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("contact", sa.String(), nullable=False),
        sa.Column("weekdays", sa.String(), nullable=False),
        sa.Column("minute", sa.Integer(), nullable=True),
        sa.Column("gone", sa.Boolean(), nullable=False),
        _names("customer", "customer_id", "entry", "id"),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_customer")),
    )
    op.create_table(
        "mix",
        *_of_entry("mix"),
        sa.Column("mix_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("gone", sa.Boolean(), nullable=False),
        _names("mix", "mix_id", "entry", "id"),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_mix")),
    )
    op.create_table(
        "mix_part",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("template_id", sa.Integer(), nullable=False),
        sa.Column("parts", sa.Float(), nullable=False),
        _names("mix_part", "entry_id", "mix", "entry_id"),
        _names("mix_part", "template_id", "template", "id"),
        sa.PrimaryKeyConstraint("entry_id", "template_id", name=op.f("pk_mix_part")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "order_line",
        *_of_entry("order_line"),
        sa.Column("order_id", sa.Integer(), nullable=False),
        *_wanted(),
        sa.Column("weekdays", sa.String(), nullable=False),
        sa.Column("minute", sa.Integer(), nullable=True),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("until", sa.Date(), nullable=True),
        sa.Column("price", sa.String(), nullable=True),
        sa.Column("gone", sa.Boolean(), nullable=False),
        _names("order_line", "order_id", "entry", "id"),
        _names("order_line", "customer_id", "entry", "id"),
        _names("order_line", "template_id", "template", "id"),
        _names("order_line", "mix_id", "entry", "id"),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_order_line")),
    )
    op.create_index("ix_order_line_order_id", "order_line", ["order_id"])
    op.create_index("ix_order_line_until", "order_line", ["until"])
    op.create_table(
        "order_pause",
        *_of_entry("order_pause"),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=True),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("until", sa.Date(), nullable=False),
        _names("order_pause", "customer_id", "entry", "id"),
        _names("order_pause", "order_id", "entry", "id"),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_order_pause")),
    )
    op.create_table(
        "packed",
        *_of_entry("packed"),
        sa.Column("order_id", sa.Integer(), nullable=True),
        *_wanted(),
        sa.Column("day", sa.Date(), nullable=False),
        _names("packed", "order_id", "entry", "id"),
        _names("packed", "customer_id", "entry", "id"),
        _names("packed", "template_id", "template", "id"),
        _names("packed", "mix_id", "entry", "id"),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_packed")),
    )
    op.create_index("ix_packed_day", "packed", ["day"])
    op.add_column("template_version", sa.Column("keeping_days", sa.Float(), nullable=True))
