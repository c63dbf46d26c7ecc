"""The entries, the words they are found by, and what was weighed, watered and seen."""

from datetime import date, datetime

from sqlalchemy import Index, false
from sqlmodel import Field

from logbook.store.tables.base import LINK, Moment, Numbered, OfEntry, Table, partial_index


class EntryRow(Numbered, table=True):
    """One line in the book; written once, struck by a later entry, never changed.

    `at` is when it happened, `written_at` when it was written. `stage` is the stage that a change
    led into or a skipped one would have, `chore` the chore that a change or a skip was. Entries of
    one act (one press of a key, one command) share `act_id`, the id of the first of them, and are
    undone together.
    `clock_in_doubt` marks what was written while the machine's clock could not be believed.
    """

    __tablename__ = "entry"
    __table_args__ = (
        Index("ix_entry_at", "at"),
        partial_index("ix_entry_place_id", "place_id", "place_id IS NOT NULL"),
        partial_index("ix_entry_strikes_id", "strikes_id", "strikes_id IS NOT NULL"),
        partial_index("ix_entry_act_id", "act_id", "act_id <> id"),
    )
    kind: str
    at: datetime = Field(sa_type=Moment)
    written_at: datetime = Field(sa_type=Moment)
    by: str = ""
    note: str = ""
    chore: str = ""
    stage: int | None = None
    batch_id: int | None = Field(default=None, foreign_key="batch.id", index=True)
    place_id: int | None = Field(default=None, foreign_key="place.id")
    strikes_id: int | None = Field(default=None, foreign_key="entry.id")
    act_id: int | None = Field(default=None, foreign_key="entry.id")
    clock_in_doubt: bool = Field(default=False, sa_column_kwargs={"server_default": false()})


class EntryWordsRow(OfEntry, table=True):
    """The folded words that an entry is found by; derived, see store/search.py."""

    __tablename__ = "entry_words"
    words: str


class ClosedDayRow(Table, table=True):
    """Entries written one after another on a day that is over, from `first_id` to `last_id`.

    `sha256` is a digest of what they say and of the one before.
    """

    __tablename__ = "closed_day"
    last_id: int = Field(primary_key=True)
    first_id: int
    day: date
    sha256: str


class WeightRow(OfEntry, table=True):
    """A cut weight of one tray; `part` when more of that harvest is to come, `shared` when weighed together.

    `keep` when the tray was left to grow again, so that its next cut is another harvest. `lot_id`
    is the pack lot that it went into; NULL for what was cut before there were lots.
    """

    __tablename__ = "weight"
    __table_args__ = (
        partial_index("ix_weight_keep", "tray_id", "keep"),
        partial_index("ix_weight_shared", "tray_id", "shared"),
        partial_index("ix_weight_lot_id", "lot_id", "lot_id IS NOT NULL"),
        LINK,
    )
    tray_id: int = Field(foreign_key="tray.id", primary_key=True)
    grams: float
    part: bool = False
    shared: bool = False
    keep: bool = Field(default=False, sa_column_kwargs={"server_default": false()})
    lot_id: int | None = Field(default=None, foreign_key="entry.id")


class WateringRow(OfEntry, table=True):
    """Water as it was given or measured: ml a tray, pH, EC in mS/cm; None was not measured."""

    __tablename__ = "watering"
    amount_ml: float | None = None
    ph: float | None = None
    ec: float | None = None


class LookRow(OfEntry, table=True):
    """What a look saw; None or '' was not looked at."""

    __tablename__ = "look"
    emerged_percent: float | None = None
    height_mm: float | None = None
    mould: str = ""
    mould_where: str = ""
    wilting: bool | None = None
    cotyledons_open: bool | None = None
    true_leaves: bool | None = None
    stem_colour: str = ""
    hulls_on: bool | None = None
    uneven: str = ""
    sign: str = ""
    sign_seen: bool = False
