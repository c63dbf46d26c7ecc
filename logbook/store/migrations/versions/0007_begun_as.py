"""A book says whether it was begun as a rehearsal, or as the sample."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take every book that there is for a real one."""
    op.add_column("book", sa.Column("begun_as", sa.String, nullable=False, server_default=""))
