"""The planned end of a trial can be said anew."""

import sqlalchemy as sa
from alembic import op

revision = "0021"
down_revision = "0020"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of planned ends."""
    op.create_table(
        "trial_end",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("per_arm", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_trial_end_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_trial_end_trial_id_trial")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_trial_end")),
    )
    op.create_index("ix_trial_end_trial_id", "trial_end", ["trial_id"])
