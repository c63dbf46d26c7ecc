"""Bags of seed as they were bought, what was counted of them and what was left when they were weighed."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0020"
down_revision = "0019"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables; lots that batches name already are lots of which no purchase is known."""
    _of_entry(
        "seed_bag",
        sa.Column("lot", sa.String(), nullable=False),
        sa.Column("crop", sa.String(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
        sa.Column("bought", sa.Date(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("price", sa.String(), nullable=True),
        sa.Column("germination_percent", sa.Float(), nullable=True),
        sa.Column("tested", sa.Date(), nullable=True),
        sa.Column("treated", sa.Boolean(), nullable=True),
        sa.Column("for_food", sa.Boolean(), nullable=True),
    )
    _of_entry(
        "seed_test",
        sa.Column("lot", sa.String(), nullable=False),
        sa.Column("sown", sa.Integer(), nullable=False),
        sa.Column("up", sa.Integer(), nullable=False),
    )
    _of_entry(
        "seed_weight",
        sa.Column("lot", sa.String(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
    )


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
