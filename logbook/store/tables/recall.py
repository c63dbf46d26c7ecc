"""What is on hold, and what was released."""

from sqlmodel import Field

from logbook.store.tables.base import OfEntry


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
