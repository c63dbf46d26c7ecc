"""Trials: their arms, blocks and trays, tastings, weights, decisions; entries of a clock in doubt."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of trials; mark entries that were written with a clock in doubt."""
    op.add_column(
        "entry",
        sa.Column("clock_in_doubt", sa.Boolean(), nullable=False, server_default=sa.false()),
    )
    op.create_table(
        "trial",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("question", sa.String(), nullable=False),
        sa.Column("thing", sa.String(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("measures", sa.String(), nullable=False),
        sa.Column("repeats", sa.Integer(), nullable=False),
        sa.Column("blocks", sa.String(), nullable=False),
        sa.Column("weeks", sa.Integer(), nullable=False),
        sa.Column("seed", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_trial_entry_id_entry")),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_trial_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_trial")),
    )
    op.create_index(op.f("ix_trial_entry_id"), "trial", ["entry_id"], unique=False)
    op.create_table(
        "trial_arm",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("setting", sa.String(), nullable=False),
        sa.Column("colour", sa.String(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=True),
        sa.Column("place_id", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name=op.f("fk_trial_arm_place_id_place")
        ),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_trial_arm_trial_id_trial")
        ),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_trial_arm_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_trial_arm")),
    )
    op.create_index("uq_trial_arm_position", "trial_arm", ["trial_id", "position"], unique=True)
    op.create_table(
        "trial_block",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name=op.f("fk_trial_block_place_id_place")
        ),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_trial_block_trial_id_trial")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_trial_block")),
    )
    op.create_index("uq_trial_block_position", "trial_block", ["trial_id", "position"], unique=True)
    op.create_table(
        "trial_tray",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("tray_id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("arm_id", sa.Integer(), nullable=False),
        sa.Column("block_id", sa.Integer(), nullable=True),
        sa.Column("run", sa.Integer(), nullable=False),
        sa.Column("left_out", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["arm_id"], ["trial_arm.id"], name=op.f("fk_trial_tray_arm_id_trial_arm")
        ),
        sa.ForeignKeyConstraint(
            ["block_id"], ["trial_block.id"], name=op.f("fk_trial_tray_block_id_trial_block")
        ),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_trial_tray_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(["tray_id"], ["tray.id"], name=op.f("fk_trial_tray_tray_id_tray")),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_trial_tray_trial_id_trial")
        ),
        sa.PrimaryKeyConstraint("entry_id", "tray_id", name=op.f("pk_trial_tray")),
    )
    op.create_index(op.f("ix_trial_tray_trial_id"), "trial_tray", ["trial_id"], unique=False)
    op.create_table(
        "trial_criterion",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("weight", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_trial_criterion_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_trial_criterion_trial_id_trial")
        ),
        sa.PrimaryKeyConstraint("entry_id", "name", name=op.f("pk_trial_criterion")),
    )
    op.create_index(
        op.f("ix_trial_criterion_trial_id"), "trial_criterion", ["trial_id"], unique=False
    )
    op.create_table(
        "trial_decision",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("arm_id", sa.Integer(), nullable=True),
        sa.Column("version_id", sa.Integer(), nullable=True),
        sa.Column("decided", sa.String(), nullable=False),
        sa.Column("try_next", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["arm_id"], ["trial_arm.id"], name=op.f("fk_trial_decision_arm_id_trial_arm")
        ),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_trial_decision_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_trial_decision_trial_id_trial")
        ),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_trial_decision_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_trial_decision")),
    )
    op.create_index(
        op.f("ix_trial_decision_trial_id"), "trial_decision", ["trial_id"], unique=False
    )
    op.create_table(
        "tasting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("ranks", sa.Boolean(), nullable=False),
        sa.Column("seed", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_tasting_entry_id_entry")),
        sa.ForeignKeyConstraint(["trial_id"], ["trial.id"], name=op.f("fk_tasting_trial_id_trial")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tasting")),
    )
    op.create_index(op.f("ix_tasting_entry_id"), "tasting", ["entry_id"], unique=False)
    op.create_index(op.f("ix_tasting_trial_id"), "tasting", ["trial_id"], unique=False)
    op.create_table(
        "tasting_answer",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("arm_id", sa.Integer(), nullable=False),
        sa.Column("aspect", sa.String(), nullable=False),
        sa.Column("tasting_id", sa.Integer(), nullable=False),
        sa.Column("taster", sa.String(), nullable=False),
        sa.Column("score", sa.Float(), nullable=True),
        sa.Column("words", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["arm_id"], ["trial_arm.id"], name=op.f("fk_tasting_answer_arm_id_trial_arm")
        ),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_tasting_answer_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["tasting_id"], ["tasting.id"], name=op.f("fk_tasting_answer_tasting_id_tasting")
        ),
        sa.PrimaryKeyConstraint("entry_id", "arm_id", "aspect", name=op.f("pk_tasting_answer")),
    )
    op.create_index(
        op.f("ix_tasting_answer_tasting_id"), "tasting_answer", ["tasting_id"], unique=False
    )
    op.create_table(
        "triangle",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("trial_id", sa.Integer(), nullable=False),
        sa.Column("first_arm_id", sa.Integer(), nullable=False),
        sa.Column("second_arm_id", sa.Integer(), nullable=False),
        sa.Column("tasters", sa.Integer(), nullable=False),
        sa.Column("found", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_triangle_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["first_arm_id"], ["trial_arm.id"], name=op.f("fk_triangle_first_arm_id_trial_arm")
        ),
        sa.ForeignKeyConstraint(
            ["second_arm_id"], ["trial_arm.id"], name=op.f("fk_triangle_second_arm_id_trial_arm")
        ),
        sa.ForeignKeyConstraint(
            ["trial_id"], ["trial.id"], name=op.f("fk_triangle_trial_id_trial")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_triangle")),
    )
    op.create_index(op.f("ix_triangle_trial_id"), "triangle", ["trial_id"], unique=False)
