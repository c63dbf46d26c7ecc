"""The book says of itself what its tables and columns hold."""

import sqlalchemy as sa
from alembic import op

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table; it is filled whenever a book has come to the newest revision."""
    op.create_table(
        "about",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("says", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_about")),
    )
