"""A batch may be sown from several seed lots, each with its grams."""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """The lot of a batch becomes its only one; how much seed it gave was never said."""
    op.create_table(
        "batch_lot",
        sa.Column("batch_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("lot", sa.String(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["batch_id"], ["batch.id"], name=op.f("fk_batch_lot_batch_id_batch")
        ),
        sa.PrimaryKeyConstraint("batch_id", "position", name=op.f("pk_batch_lot")),
    )
    op.execute(
        "INSERT INTO batch_lot (batch_id, position, lot) "
        "SELECT id, 0, lot FROM batch WHERE lot <> '' ORDER BY id"
    )
    with op.batch_alter_table("batch") as batch:
        batch.drop_column("lot")
