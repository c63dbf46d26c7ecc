"""Recalls that were made or practised."""

import sqlalchemy as sa
from alembic import op

revision = "0029"
down_revision = "0028"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "recall",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("practice", sa.Boolean(), nullable=False),
        sa.Column("begun", sa.DateTime(timezone=True), nullable=False),
        sa.Column("customers", sa.Integer(), nullable=False),
        sa.Column("lots", sa.Integer(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
        sa.Column("unaccounted_grams", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_recall_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_recall")),
    )
