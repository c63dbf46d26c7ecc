"""Records that rules ask for: a phone, a certificate, organic seed, reviews, assurances, years of sales."""

import sqlalchemy as sa
from alembic import op

revision = "0028"
down_revision = "0027"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns, with nothing said yet, and make three tables."""
    for name in ("phone", "certificate"):
        op.add_column("book", sa.Column(name, sa.String(), nullable=True))
    op.add_column("book", sa.Column("certified_until", sa.Date(), nullable=True))
    op.add_column("seed_bag", sa.Column("organic", sa.Boolean(), nullable=True))
    op.add_column("customer", sa.Column("near", sa.Boolean(), nullable=True))
    op.create_table(
        "review",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("week", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_review_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_review")),
    )
    op.create_index(op.f("ix_review_week"), "review", ["week"])
    op.create_table(
        "assurance",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("given_on", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(
            ["customer_id"], ["entry.id"], name=op.f("fk_assurance_customer_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_assurance_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_assurance")),
    )
    op.create_table(
        "sales_year",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("sold", sa.String(), nullable=False),
        sa.Column("to_end_users", sa.String(), nullable=False),
        sa.Column("produce", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_sales_year_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_sales_year")),
    )
