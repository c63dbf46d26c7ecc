"""Tables that PostgreSQL takes too: "placing" is a reserved word there."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Copy placings into a table of another name; no other table points to them."""
    op.create_table(
        "tray_place",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("tray_id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=True),
        sa.Column("slot", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_tray_place_entry_id_entry")
        ),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name=op.f("fk_tray_place_place_id_place")
        ),
        sa.ForeignKeyConstraint(["tray_id"], ["tray.id"], name=op.f("fk_tray_place_tray_id_tray")),
        sa.PrimaryKeyConstraint("entry_id", "tray_id", name=op.f("pk_tray_place")),
    )
    op.execute(
        "INSERT INTO tray_place (entry_id, tray_id, place_id, slot) "
        'SELECT entry_id, tray_id, place_id, slot FROM "placing" ORDER BY entry_id, tray_id'
    )
    op.drop_table("placing")
