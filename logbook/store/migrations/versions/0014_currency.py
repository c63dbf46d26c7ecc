"""A book says its currency; prices are kept as the decimals that were typed."""

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Leave the currency unsaid: nobody named one."""
    op.add_column("book", sa.Column("currency", sa.String(), nullable=True))
    for table in ("tariff", "tariff_hours"):
        with op.batch_alter_table(table) as batch:
            batch.alter_column(
                "per_kwh", existing_type=sa.Float(), type_=sa.String(), existing_nullable=False
            )
