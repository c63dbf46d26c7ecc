"""Batches, trays and where they stand."""

from datetime import datetime

from sqlalchemy import Index
from sqlmodel import Field

from logbook.store.tables.base import LINK, Moment, Numbered, OfEntry, Table, partial_index


class BatchRow(Numbered, table=True):
    """Trays sown together, of one template version."""

    __tablename__ = "batch"
    version_id: int = Field(foreign_key="template_version.id", index=True)
    grams_per_tray: float | None = None
    planned_for: datetime | None = Field(default=None, sa_type=Moment)


class BatchLotRow(Table, table=True):
    """A seed lot that a batch is sown from, in the order of `position` from 0; g of dry seed in all."""

    __tablename__ = "batch_lot"
    __table_args__ = LINK
    batch_id: int = Field(foreign_key="batch.id", primary_key=True)
    position: int = Field(primary_key=True)
    lot: str
    grams: float | None = None


class TrayRow(Numbered, table=True):
    """A tray under one number, from its sowing to its cut.

    `live`, `ended_at` and `cut_grams` sum up the fold over the tray's entries, `batch_id` and
    `version_id` what the newest standing sowing or plan says; they are written in the same
    transaction as an entry and can be rebuilt from the entries at any time.
    """

    __tablename__ = "tray"
    __table_args__ = (
        partial_index("uq_tray_number_live", "number", "live", unique=True),
        Index("ix_tray_batch_id", "batch_id"),
        Index("ix_tray_number", "number"),
        Index("ix_tray_version_ended", "version_id", "ended_at"),
    )
    number: int
    batch_id: int = Field(foreign_key="batch.id")
    version_id: int = Field(foreign_key="template_version.id")
    colour: str = ""
    live: bool
    ended_at: datetime | None = Field(default=None, sa_type=Moment)
    cut_grams: float | None = None


class TrayPlaceRow(OfEntry, table=True):
    """Where a sowing or a move put a tray."""

    __tablename__ = "tray_place"
    __table_args__ = (Index("ix_tray_place_tray_id", "tray_id"), LINK)
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)
    place_id: int | None = Field(default=None, foreign_key="place.id")
    slot: int | None = None


class EntryTrayRow(OfEntry, table=True):
    """Which trays an entry speaks of."""

    __tablename__ = "entry_tray"
    __table_args__ = (Index("ix_entry_tray_tray_id", "tray_id"), LINK)
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)


class SheetLineRow(Numbered, table=True):
    """A line of a printed round: its code means these trays (ids, with spaces) and no others."""

    __tablename__ = "sheet_line"
    printed_at: datetime = Field(sa_type=Moment, index=True)
    code: str
    chore: str
    at: datetime = Field(sa_type=Moment)
    trays: str
