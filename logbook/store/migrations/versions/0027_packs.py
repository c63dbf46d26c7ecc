"""Pack lots: what went into them, out of them and to whom."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0027"
down_revision = "0026"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables; what was cut and packed before names no lot."""
    _of_entry(
        "pack_lot",
        sa.Column("lot_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("code_key", sa.String(), nullable=False),
        sa.Column("template_id", sa.Integer(), nullable=True),
        sa.Column("mix_id", sa.Integer(), nullable=True),
        sa.Column("packed_on", sa.Date(), nullable=False),
        sa.Column("best_before", sa.Date(), nullable=False),
        *_entries("pack_lot", "lot_id", "mix_id"),
        sa.ForeignKeyConstraint(
            ["template_id"], ["template.id"], name=op.f("fk_pack_lot_template_id_template")
        ),
    )
    _of_entry(
        "lot_part",
        sa.Column("from_lot_id", sa.Integer(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
        *_entries("lot_part", "from_lot_id"),
        keys=("entry_id", "from_lot_id"),
    )
    _of_entry(
        "packed_lot",
        sa.Column("lot_id", sa.Integer(), nullable=False),
        sa.Column("packs", sa.Integer(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=True),
        *_entries("packed_lot", "lot_id"),
        keys=("entry_id", "lot_id"),
    )
    _of_entry(
        "lot_out",
        sa.Column("lot_id", sa.Integer(), nullable=False),
        sa.Column("grams", sa.Float(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=True),
        *_entries("lot_out", "lot_id", "customer_id"),
    )
    for table, column in (
        ("pack_lot", "lot_id"), ("pack_lot", "code_key"), ("pack_lot", "packed_on"),
        ("lot_part", "from_lot_id"), ("packed_lot", "lot_id"), ("lot_out", "lot_id"),
    ):  # fmt: skip
        op.create_index(op.f(f"ix_{table}_{column}"), table, [column])
    op.execute(
        "ALTER TABLE weight ADD COLUMN lot_id INTEGER "
        "CONSTRAINT fk_weight_lot_id_entry REFERENCES entry (id)"
    )
    op.create_index(
        "ix_weight_lot_id", "weight", ["lot_id"], sqlite_where=sa.text("lot_id IS NOT NULL")
    )


def _entries(table: str, *columns: str) -> list[sa.ForeignKeyConstraint]:
    return [
        sa.ForeignKeyConstraint([each], ["entry.id"], name=op.f(f"fk_{table}_{each}_entry"))
        for each in columns
    ]


def _of_entry(table: str, *columns: Any, keys: tuple[str, ...] = ("entry_id",)) -> None:
    op.create_table(
        table,
        sa.Column("entry_id", sa.Integer(), nullable=False),
        *columns,
        *_entries(table, "entry_id"),
        sa.PrimaryKeyConstraint(*keys, name=op.f(f"pk_{table}")),
        **({"sqlite_with_rowid": False} if len(keys) > 1 else {}),
    )
