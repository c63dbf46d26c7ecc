"""From the bag to the plate: allergens and makers, upkeep, holds, pack lots, records, recalls."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0024"
down_revision = "0023"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add columns with nothing said yet, and the tables; what was cut and packed before names no lot."""
    _columns()
    _upkeep()
    _packs()
    _holds()
    _records()


def _columns() -> None:
    op.add_column("template_version", _text("allergens", nullable=True))
    for name in ("maker", "address", "gs1_prefix", "phone", "certificate"):
        op.add_column("book", _text(name, nullable=True))
    op.add_column("book", sa.Column("certified_until", sa.Date(), nullable=True))
    op.add_column("seed_bag", sa.Column("organic", sa.Boolean(), nullable=True))
    op.add_column("customer", sa.Column("near", sa.Boolean(), nullable=True))
    op.execute(
        "ALTER TABLE weight ADD COLUMN lot_id INTEGER "
        "CONSTRAINT fk_weight_lot_id_entry REFERENCES entry (id)"
    )
    op.create_index(
        "ix_weight_lot_id", "weight", ["lot_id"], sqlite_where=sa.text("lot_id IS NOT NULL")
    )


def _upkeep() -> None:
    _of_entry(
        "upkeep", _text("name"), _text("name_key"), _number("every_days"), _text("weekdays"),
        _text("how"), _number("known_grams", nullable=True),
    )  # fmt: skip
    _of_entry(
        "upkeep_done", _text("name"), _text("name_key"), _number("value", nullable=True),
        _number("known_grams", nullable=True),
    )  # fmt: skip
    _index("upkeep_done", "name_key")


def _packs() -> None:
    _of_entry(
        "pack_lot", _link("pack_lot", "lot_id"), _text("code"), _text("code_key"),
        _link("pack_lot", "template_id", "template", nullable=True),
        _link("pack_lot", "mix_id", nullable=True), _day("packed_on"), _day("best_before"),
    )  # fmt: skip
    _of_entry(
        "lot_part", _link("lot_part", "from_lot_id"), _number("grams"),
        keys=("entry_id", "from_lot_id"),
    )  # fmt: skip
    _of_entry(
        "packed_lot", _link("packed_lot", "lot_id"), sa.Column("packs", sa.Integer(), nullable=False),
        _number("grams", nullable=True), keys=("entry_id", "lot_id"),
    )  # fmt: skip
    _of_entry(
        "lot_out", _link("lot_out", "lot_id"), _number("grams"), _text("why"),
        _link("lot_out", "customer_id", nullable=True),
    )  # fmt: skip
    _index("pack_lot", "lot_id", "code_key", "packed_on")
    _index("lot_part", "from_lot_id")
    _index("packed_lot", "lot_id")
    _index("lot_out", "lot_id")


def _holds() -> None:
    _of_entry(
        "hold", _text("name"), _text("seed_lot"), _link("hold", "batch_id", "batch", nullable=True),
        _link("hold", "tray_id", "tray", nullable=True), _link("hold", "lot_id", nullable=True),
        _link("hold", "place_id", "place", nullable=True),
    )  # fmt: skip
    _of_entry("hold_end", _link("hold_end", "hold_id"))
    _index("hold_end", "hold_id")
    _of_entry(
        "recall", _text("code"), sa.Column("practice", sa.Boolean(), nullable=False),
        sa.Column("begun", sa.DateTime(timezone=True), nullable=False),
        sa.Column("customers", sa.Integer(), nullable=False),
        sa.Column("lots", sa.Integer(), nullable=False), _number("grams"),
        _number("unaccounted_grams"),
    )  # fmt: skip


def _records() -> None:
    _of_entry("review", _day("week"))
    _index("review", "week")
    _of_entry("assurance", _link("assurance", "customer_id"), _day("given_on"))
    _of_entry(
        "sales_year", sa.Column("year", sa.Integer(), nullable=False), _text("sold"),
        _text("to_end_users"), _text("produce", nullable=True),
    )  # fmt: skip


def _text(name: str, *, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, sa.String(), nullable=nullable)


def _number(name: str, *, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, sa.Float(), nullable=nullable)


def _day(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.Date(), nullable=False)


def _link(table: str, column: str, to: str = "entry", *, nullable: bool = False) -> sa.Column[Any]:
    key = sa.ForeignKey(f"{to}.id", name=op.f(f"fk_{table}_{column}_{to}"))
    return sa.Column(column, sa.Integer(), key, nullable=nullable)


def _of_entry(table: str, *columns: sa.Column[Any], keys: tuple[str, ...] = ("entry_id",)) -> None:
    op.create_table(
        table,
        _link(table, "entry_id"),
        *columns,
        sa.PrimaryKeyConstraint(*keys, name=op.f(f"pk_{table}")),
        **({"sqlite_with_rowid": False} if len(keys) > 1 else {}),
    )


def _index(table: str, *columns: str) -> None:
    for column in columns:
        op.create_index(op.f(f"ix_{table}_{column}"), table, [column])
