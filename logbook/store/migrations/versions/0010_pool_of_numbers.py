"""A book says which numbers its trays take in turn."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Leave them out: then numbers go on counting."""
    op.add_column("book", sa.Column("pool_first", sa.Integer(), nullable=True))
    op.add_column("book", sa.Column("pool_last", sa.Integer(), nullable=True))
