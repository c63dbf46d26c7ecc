"""Light, power, air and water: lamps, hours, circuits, tariffs, readings, targets, solutions."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add columns to waterings, and the tables."""
    op.add_column("watering", sa.Column("ph", sa.Float(), nullable=True))
    op.add_column("watering", sa.Column("ec", sa.Float(), nullable=True))
    op.create_table(
        "template_target",
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("light_low", sa.Float(), nullable=True),
        sa.Column("light_high", sa.Float(), nullable=True),
        sa.Column("lit_hours", sa.Float(), nullable=True),
        sa.Column("celsius_low", sa.Float(), nullable=True),
        sa.Column("celsius_high", sa.Float(), nullable=True),
        sa.Column("humidity_low", sa.Float(), nullable=True),
        sa.Column("humidity_high", sa.Float(), nullable=True),
        sa.Column("ph_low", sa.Float(), nullable=True),
        sa.Column("ph_high", sa.Float(), nullable=True),
        sa.Column("ec_low", sa.Float(), nullable=True),
        sa.Column("ec_high", sa.Float(), nullable=True),
        sa.Column("water_low_ml", sa.Float(), nullable=True),
        sa.Column("water_high_ml", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["version_id"],
            ["template_version.id"],
            name=op.f("fk_template_target_version_id_template_version"),
        ),
        sa.PrimaryKeyConstraint("version_id", name=op.f("pk_template_target")),
    )
    op.create_table(
        "lamp_set",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("lamps", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("light", sa.String(), nullable=False),
        sa.Column("watts", sa.Float(), nullable=False),
        sa.Column("amps", sa.Float(), nullable=True),
        sa.Column("volts", sa.Float(), nullable=True),
        sa.Column("height_mm", sa.Float(), nullable=True),
        sa.Column("bought", sa.Date(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_lamp_set_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_lamp_set")),
    )
    op.create_table(
        "lamp_hours",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("lamp_on", sa.Integer(), nullable=True),
        sa.Column("lamp_off", sa.Integer(), nullable=True),
        sa.Column("was_on", sa.Integer(), nullable=True),
        sa.Column("was_off", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_lamp_hours_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_lamp_hours")),
    )
    op.create_table(
        "circuit",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("name_key", sa.String(), nullable=False),
        sa.Column("breaker_amps", sa.Float(), nullable=False),
        sa.Column("volts", sa.Float(), nullable=False),
        sa.Column("share_percent", sa.Float(), nullable=False),
        sa.Column("other_amps", sa.Float(), nullable=False),
        sa.Column("gone", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_circuit_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_circuit")),
    )
    op.create_index(op.f("ix_circuit_name_key"), "circuit", ["name_key"], unique=False)
    op.create_table(
        "circuit_shelf",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["circuit.entry_id"], name=op.f("fk_circuit_shelf_entry_id_circuit")
        ),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name=op.f("fk_circuit_shelf_place_id_place")
        ),
        sa.PrimaryKeyConstraint("entry_id", "place_id", name=op.f("pk_circuit_shelf")),
    )
    op.create_table(
        "tariff",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("per_kwh", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(["entry_id"], ["entry.id"], name=op.f("fk_tariff_entry_id_entry")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_tariff")),
    )
    op.create_table(
        "tariff_hours",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("starts", sa.Integer(), nullable=False),
        sa.Column("ends", sa.Integer(), nullable=False),
        sa.Column("per_kwh", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["tariff.entry_id"], name=op.f("fk_tariff_hours_entry_id_tariff")
        ),
        sa.PrimaryKeyConstraint("entry_id", "position", name=op.f("pk_tariff_hours")),
    )
    op.create_table(
        "light_survey",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("spot_rows", sa.Integer(), nullable=False),
        sa.Column("spot_columns", sa.Integer(), nullable=False),
        sa.Column("height_mm", sa.Float(), nullable=True),
        sa.Column("lux_lamp", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_light_survey_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_light_survey")),
    )
    op.create_table(
        "light_spot",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("spot_row", sa.Integer(), nullable=False),
        sa.Column("spot_column", sa.Integer(), nullable=False),
        sa.Column("ppfd", sa.Float(), nullable=False),
        sa.Column("lux", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"],
            ["light_survey.entry_id"],
            name=op.f("fk_light_spot_entry_id_light_survey"),
        ),
        sa.PrimaryKeyConstraint("entry_id", "spot_row", "spot_column", name=op.f("pk_light_spot")),
    )
    op.create_table(
        "air_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.Column("celsius", sa.Float(), nullable=False),
        sa.Column("humidity", sa.Float(), nullable=False),
        sa.Column("still", sa.Boolean(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_air_reading_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name=op.f("fk_air_reading_place_id_place")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_air_reading")),
    )
    op.create_index(op.f("ix_air_reading_entry_id"), "air_reading", ["entry_id"], unique=False)
    op.create_index("ix_air_reading_place_at", "air_reading", ["place_id", "at"], unique=False)
    op.create_table(
        "solution_use",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("purpose", sa.String(), nullable=False),
        sa.Column("method", sa.String(), nullable=False),
        sa.Column("product", sa.String(), nullable=False),
        sa.Column("stock_percent", sa.Float(), nullable=True),
        sa.Column("want_percent", sa.Float(), nullable=True),
        sa.Column("volume_ml", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_solution_use_entry_id_entry")
        ),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_solution_use")),
    )
