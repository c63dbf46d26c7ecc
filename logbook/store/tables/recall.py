"""What is on hold, what was released, and the recalls that were made or practised."""

from datetime import datetime

from sqlmodel import Field

from logbook.store.tables.base import Moment, OfEntry


class HoldRow(OfEntry, table=True):
    """What an entry of kind "hold" puts on hold: one of the five; the note says why.

    `name` is what it was called then. `lot_id` is a pack lot's: the entry that first named it.
    """

    __tablename__ = "hold"
    name: str
    seed_lot: str = ""
    batch_id: int | None = Field(default=None, foreign_key="batch.id")
    tray_id: int | None = Field(default=None, foreign_key="tray.id")
    lot_id: int | None = Field(default=None, foreign_key="entry.id")
    place_id: int | None = Field(default=None, foreign_key="place.id")


class HoldEndRow(OfEntry, table=True):
    """The hold that an entry of kind "release" ends; the note says why."""

    __tablename__ = "hold_end"
    hold_id: int = Field(foreign_key="entry.id", index=True)


class RecallRow(OfEntry, table=True):
    """A recall that was made, or practised: what it began at, and since when it took, to its entry's time.

    `grams` are what customers had got, `unaccounted_grams` what was cut of it and is in no pack lot.
    """

    __tablename__ = "recall"
    code: str
    practice: bool
    begun: datetime = Field(sa_type=Moment)
    customers: int
    lots: int
    grams: float
    unaccounted_grams: float
