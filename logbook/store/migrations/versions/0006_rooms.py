"""Time zone and hours of the day belong to a place's room; they were the book's."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

COLUMNS = {"zone": sa.String, "day_start": sa.Integer, "day_end": sa.Integer}


def upgrade() -> None:
    """Give those of the book to its first room; a book without a room gets one."""
    for name, kind in COLUMNS.items():
        op.add_column("place", sa.Column(name, kind(), nullable=True))
    op.execute(
        "INSERT INTO place (kind, name, position, slots, retired) "
        "SELECT 'room', name, 1, 0, 0 FROM book "
        "WHERE NOT EXISTS (SELECT 1 FROM place WHERE kind = 'room')"
    )
    for name in COLUMNS:
        op.execute(
            f"UPDATE place SET {name} = (SELECT {name} FROM book) "  # noqa: S608 - our own names
            "WHERE id = (SELECT min(id) FROM place WHERE kind = 'room')"
        )
        op.drop_column("book", name)
