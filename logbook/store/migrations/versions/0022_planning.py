"""A book says how sure deliveries are to be, what trimming loses, and the hours of work of a day."""

import sqlalchemy as sa
from alembic import op

revision = "0022"
down_revision = "0021"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Leave them unsaid: then the usual holds."""
    for name in ("sure_percent", "loss_percent", "work_hours"):
        op.add_column("book", sa.Column(name, sa.Float(), nullable=True))
