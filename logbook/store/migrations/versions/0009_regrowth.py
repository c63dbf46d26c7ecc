"""A tray that was cut can be kept to grow again; a template says how long that takes and what it gives."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Part cuts of before stay what they were: cuts of one harvest, none of which left it to regrow."""
    op.add_column(
        "weight", sa.Column("keep", sa.Boolean(), nullable=False, server_default=sa.false())
    )
    op.create_index(
        "ix_weight_keep", "weight", ["tray_id"],
        sqlite_where=sa.text("keep = 1"), postgresql_where=sa.text("keep = 1"),
    )  # fmt: skip
    op.add_column("template_version", sa.Column("regrow_seconds", sa.Integer(), nullable=True))
    op.add_column("template_version", sa.Column("regrow_grams", sa.Float(), nullable=True))
