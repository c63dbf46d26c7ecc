"""Cleaning and checks that come round: how often, and that each was done or put off."""

import sqlalchemy as sa
from alembic import op

revision = "0025"
down_revision = "0024"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the two tables."""
    op.create_table(
        "upkeep",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("every_days", sa.Float(), nullable=False),
        sa.Column("weekdays", sa.String(), nullable=False),
        sa.Column("how", sa.String(), nullable=False),
        sa.Column("known_grams", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_upkeep_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_upkeep")),
    )
    op.create_table(
        "upkeep_done",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("value", sa.Float(), nullable=True),
        sa.Column("known_grams", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_upkeep_done_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_upkeep_done")),
    )
    op.create_index(op.f("ix_upkeep_done_name_key"), "upkeep_done", ["name_key"])
