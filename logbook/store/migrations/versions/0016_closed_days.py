"""A digest of each day that is over."""

import sqlalchemy as sa
from alembic import op

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make their table; the next daily check begins to fill it."""
    op.create_table(
        "closed_day",
        sa.Column("last_id", sa.Integer(), nullable=False),
        sa.Column("first_id", sa.Integer(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("last_id", name=op.f("pk_closed_day")),
    )
