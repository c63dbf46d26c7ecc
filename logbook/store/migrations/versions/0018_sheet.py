"""What was printed of the round is kept, so that its codes mean the same when the paper comes back."""

import sqlalchemy as sa
from alembic import op

revision = "0018"
down_revision = "0017"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of printed lines."""
    op.create_table(
        "sheet_line",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("printed_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("chore", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("trays", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sheet_line")),
    )
    op.create_index("ix_sheet_line_printed_at", "sheet_line", ["printed_at"])
