"""Pack lots: what was cut together, what mixes took of them, which went to whom, and what became of the rest.

Which cut went into which lot stands beside its weight (`WeightRow.lot_id`), so that a corrected
weight corrects the lot.
"""

from datetime import date

from sqlmodel import Field

from logbook.store.tables.base import LINK, OfEntry


class PackLotRow(OfEntry, table=True):
    """A pack lot as an entry of kind "pack_lot" says; the newest standing one of `lot_id` holds.

    `lot_id` is the entry that first named it. A code is never given twice, not even a struck one.
    """

    __tablename__ = "pack_lot"
    lot_id: int = Field(foreign_key="entry.id", index=True)
    code: str
    code_key: str = Field(index=True)
    template_id: int | None = Field(default=None, foreign_key="template.id")
    mix_id: int | None = Field(default=None, foreign_key="entry.id")
    packed_on: date = Field(index=True)
    best_before: date


class LotPartRow(OfEntry, table=True):
    """What a mixed lot, which its entry first named, took of another lot, g."""

    __tablename__ = "lot_part"
    __table_args__ = LINK
    from_lot_id: int = Field(foreign_key="entry.id", primary_key=True, index=True)
    grams: float


class PackedLotRow(OfEntry, table=True):
    """From which lot the packs of a delivery came that its entry of kind "pack" ticks.

    `grams` is null for live trays; packs are shared out by weight where they came from several.
    """

    __tablename__ = "packed_lot"
    __table_args__ = LINK
    lot_id: int = Field(foreign_key="entry.id", primary_key=True, index=True)
    packs: int
    grams: float | None = None


class LotOutRow(OfEntry, table=True):
    """What left a lot otherwise, g: "waste", "own use", or "returned" by a customer and not sold again."""

    __tablename__ = "lot_out"
    lot_id: int = Field(foreign_key="entry.id", index=True)
    grams: float
    why: str
    customer_id: int | None = Field(default=None, foreign_key="entry.id")
