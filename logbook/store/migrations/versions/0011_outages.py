"""Power was off from a time to another."""

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make their table."""
    op.create_table(
        "outage",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("until", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_outage_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_outage")),
    )
