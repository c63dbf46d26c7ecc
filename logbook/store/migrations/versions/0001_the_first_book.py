"""The first book: places, templates, batches, trays and entries."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "book",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("zone", sa.String(), nullable=False),
        sa.Column("units", sa.String(), nullable=False),
        sa.Column("first_day", sa.Integer(), nullable=False),
        sa.Column("day_start", sa.Integer(), nullable=False),
        sa.Column("day_end", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_book")),
    )
    op.create_table(
        "place",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("parent_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("slots", sa.Integer(), nullable=False),
        sa.Column("lamp_on", sa.Integer(), nullable=True),
        sa.Column("lamp_off", sa.Integer(), nullable=True),
        sa.Column("retired", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["parent_id"], ["place.id"], name=op.f("fk_place_parent_id_place")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_place")),
    )
    op.create_index(op.f("ix_place_parent_id"), "place", ["parent_id"], unique=False)
    op.create_table(
        "template",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("retired", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_template")),
        sa.UniqueConstraint("name_key", name=op.f("uq_template_name_key")),
    )
    op.create_table(
        "template_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("template_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.DateTime(), nullable=False),
        sa.Column("by", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("crop", sa.String(), nullable=False),
        sa.Column("variety", sa.String(), nullable=False),
        sa.Column("seed_grams", sa.Float(), nullable=True),
        sa.Column("tray_length_mm", sa.Float(), nullable=False),
        sa.Column("tray_width_mm", sa.Float(), nullable=False),
        sa.Column("soak_seconds", sa.Integer(), nullable=False),
        sa.Column("soak_ph", sa.Float(), nullable=True),
        sa.Column("medium", sa.String(), nullable=False),
        sa.Column("cut_from_seconds", sa.Integer(), nullable=False),
        sa.Column("cut_best_seconds", sa.Integer(), nullable=False),
        sa.Column("cut_by_seconds", sa.Integer(), nullable=False),
        sa.Column("sign_to_cut", sa.String(), nullable=False),
        sa.Column("expected_grams", sa.Float(), nullable=True),
        sa.Column("spread_percent", sa.Float(), nullable=False),
        sa.Column("mucilage", sa.Boolean(), nullable=False),
        sa.Column("guess", sa.Boolean(), nullable=False),
        sa.Column("notes", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["template_id"], ["template.id"], name=op.f("fk_template_version_template_id_template")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_template_version")),
    )
    op.create_index(
        "uq_template_version_number", "template_version", ["template_id", "number"], unique=True
    )
    op.create_table(
        "batch",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("lot", sa.String(), nullable=False),
        sa.Column("grams_per_tray", sa.Float(), nullable=True),
        sa.Column("planned_for", sa.DateTime(), nullable=True),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_batch_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_batch")),
    )
    op.create_index(op.f("ix_batch_version_id"), "batch", ["version_id"], unique=False)
    op.create_table(
        "stage",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("seconds", sa.Integer(), nullable=True),
        sa.Column("cover", sa.String(), nullable=False),
        sa.Column("light", sa.String(), nullable=False),
        sa.Column("water", sa.String(), nullable=False),
        sa.Column("water_per_day", sa.Float(), nullable=False),
        sa.Column("looks_per_day", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_stage_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stage")),
    )
    op.create_index("uq_stage_position", "stage", ["version_id", "position"], unique=True)
    op.create_table(
        "entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("written_at", sa.DateTime(), nullable=False),
        sa.Column("by", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("note_key", sa.String(), nullable=False),
        sa.Column("chore", sa.String(), nullable=False),
        sa.Column("stage", sa.Integer(), nullable=True),
        sa.Column("batch_id", sa.Integer(), nullable=True),
        sa.Column("place_id", sa.Integer(), nullable=True),
        sa.Column("strikes_id", sa.Integer(), nullable=True),
        sa.Column("act_id", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["act_id"], ["entry.id"], name=op.f("fk_entry_act_id_entry")),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_entry_batch_id_batch")),
        sa.ForeignKeyConstraint(["place_id"], ["place.id"], name=op.f("fk_entry_place_id_place")),
        sa.ForeignKeyConstraint(
            ["strikes_id"], ["entry.id"], name=op.f("fk_entry_strikes_id_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_entry")),
    )
    op.create_index(op.f("ix_entry_act_id"), "entry", ["act_id"], unique=False)
    op.create_index("ix_entry_at", "entry", ["at"], unique=False)
    op.create_index(op.f("ix_entry_batch_id"), "entry", ["batch_id"], unique=False)
    op.create_index(op.f("ix_entry_place_id"), "entry", ["place_id"], unique=False)
    op.create_index("ix_entry_strikes_id", "entry", ["strikes_id"], unique=False)
    op.create_table(
        "tray",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("colour", sa.String(), nullable=False),
        sa.Column("live", sa.Boolean(), nullable=False),
        sa.Column("ended_at", sa.DateTime(), nullable=True),
        sa.Column("cut_grams", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name=op.f("fk_tray_batch_id_batch")),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_tray_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tray")),
    )
    op.create_index("ix_tray_batch_id", "tray", ["batch_id"], unique=False)
    op.create_index("ix_tray_number", "tray", ["number"], unique=False)
    op.create_index("ix_tray_version_ended", "tray", ["version_id", "ended_at"], unique=False)
    op.create_index(
        "uq_tray_number_live",
        "tray",
        ["number"],
        unique=True,
        sqlite_where=sa.text("live = 1"),
        postgresql_where=sa.text("live = 1"),
    )
    op.create_table(
        "entry_tray",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("tray_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_entry_tray_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(["tray_id"], ["tray.id"], name=op.f("fk_entry_tray_tray_id_tray")),
        sa.PrimaryKeyConstraint("entry_id", "tray_id", name=op.f("pk_entry_tray")),
    )
    op.create_index("ix_entry_tray_tray_id", "entry_tray", ["tray_id"], unique=False)
    op.create_table(
        "look",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("emerged_percent", sa.Float(), nullable=True),
        sa.Column("height_mm", sa.Float(), nullable=True),
        sa.Column("mould", sa.String(), nullable=False),
        sa.Column("mould_where", sa.String(), nullable=False),
        sa.Column("wilting", sa.Boolean(), nullable=True),
        sa.Column("cotyledons_open", sa.Boolean(), nullable=True),
        sa.Column("true_leaves", sa.Boolean(), nullable=True),
        sa.Column("stem_colour", sa.String(), nullable=False),
        sa.Column("hulls_on", sa.Boolean(), nullable=True),
        sa.Column("uneven", sa.String(), nullable=False),
        sa.Column("sign", sa.String(), nullable=False),
        sa.Column("sign_seen", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_look_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_look")),
    )
    op.create_table(
        "placing",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("tray_id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=True),
        sa.Column("slot", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_placing_entry_id_entry")),
        sa.ForeignKeyConstraint(["place_id"], ["place.id"], name=op.f("fk_placing_place_id_place")),
        sa.ForeignKeyConstraint(["tray_id"], ["tray.id"], name=op.f("fk_placing_tray_id_tray")),
        sa.PrimaryKeyConstraint("entry_id", "tray_id", name=op.f("pk_placing")),
    )
    op.create_table(
        "watering",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("amount_ml", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_watering_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_watering")),
    )
    op.create_table(
        "weight",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("tray_id", sa.Integer(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
        sa.Column("part", sa.Boolean(), nullable=False),
        sa.Column("shared", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_weight_entry_id_entry")),
        sa.ForeignKeyConstraint(["tray_id"], ["tray.id"], name=op.f("fk_weight_tray_id_tray")),
        sa.PrimaryKeyConstraint("entry_id", "tray_id", name=op.f("pk_weight")),
    )
