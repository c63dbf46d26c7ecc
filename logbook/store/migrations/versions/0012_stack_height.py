"""A book says how many trays under weight stand on one another."""

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Leave it out: then each tray takes a slot of its own."""
    op.add_column("book", sa.Column("stack_height", sa.Integer(), nullable=True))
