"""A room says when the last daily chore of several is due."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Leave it out: then it is two hours before the end of the room's day."""
    op.add_column("place", sa.Column("evening", sa.Integer(), nullable=True))
