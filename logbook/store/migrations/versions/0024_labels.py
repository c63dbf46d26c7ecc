"""What labels say: a template's allergens, who makes it and where, the grower's own prefix of GS1."""

import sqlalchemy as sa
from alembic import op

revision = "0024"
down_revision = "0023"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns, with nothing said yet."""
    op.add_column("template_version", sa.Column("allergens", sa.String(), nullable=True))
    for name in ("maker", "address", "gs1_prefix"):
        op.add_column("book", sa.Column(name, sa.String(), nullable=True))
