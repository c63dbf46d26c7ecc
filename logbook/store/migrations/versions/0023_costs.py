"""What a grower says that things cost."""

import sqlalchemy as sa
from alembic import op

revision = "0023"
down_revision = "0022"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of rates."""
    op.create_table(
        "cost_rate",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("template_id", sa.Integer(), nullable=True),
        sa.Column("amount", sa.String(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_cost_rate_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["template_id"], ["template.id"], name=op.f("fk_cost_rate_template_id_template")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_cost_rate")),
    )
