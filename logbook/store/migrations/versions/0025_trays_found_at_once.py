"""Where a tray was put last, and weights of several together, are found by the tray."""

import sqlalchemy as sa
from alembic import op

revision = "0025"
down_revision = "0024"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add two indexes: expected weights ask for both of hundreds of trays."""
    op.create_index("ix_tray_place_tray_id", "tray_place", ["tray_id"])
    op.create_index(
        "ix_weight_shared", "weight", ["tray_id"],
        sqlite_where=sa.text("shared = 1"), postgresql_where=sa.text("shared = 1"),
    )  # fmt: skip
