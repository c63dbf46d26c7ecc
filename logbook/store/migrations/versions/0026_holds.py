"""What is on hold, and what was released."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0026"
down_revision = "0025"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    _of_entry(
        "hold",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("seed_lot", sa.String(), nullable=False),
        _other("hold", "batch_id", "batch"),
        _other("hold", "tray_id", "tray"),
        _other("hold", "lot_id", "entry"),
        _other("hold", "place_id", "place"),
    )
    _of_entry("hold_end", _other("hold_end", "hold_id", "entry", nullable=False))
    op.create_index(op.f("ix_hold_end_hold_id"), "hold_end", ["hold_id"])


def _other(table: str, column: str, other: str, *, nullable: bool = True) -> sa.Column[Any]:
    key = sa.ForeignKey(f"{other}.id", name=op.f(f"fk_{table}_{column}_{other}"))
    return sa.Column(column, sa.Integer(), key, nullable=nullable)


def _of_entry(table: str, *columns: sa.Column[Any]) -> None:
    op.create_table(
        table,
        sa.Column("entry_id", sa.Integer(), nullable=False),
        *columns,
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f(f"fk_{table}_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f(f"pk_{table}")),
    )
