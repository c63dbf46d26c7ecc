"""The book itself and its places."""

from datetime import date, datetime

from sqlmodel import Field

from logbook.store.tables.base import Moment, Numbered, Table


class BookRow(Numbered, table=True):
    """The book itself: one row. `begun_as` is "rehearsal" or "sample", '' for a real book.

    New trays take their numbers in turn from `pool_first` to `pool_last`; None: numbers count on.
    `stack_height` trays under weight stand on one another and take one slot; None: they do not.
    `currency` (ISO 4217) is what all money is in; None: not said.
    Plans want a chance of enough of `sure_percent`, count `loss_percent` of a cut as lost in trimming,
    and fill `work_hours` of sowing and cutting a day; None: not said.
    Labels name `maker` and `address` (lines of it); `gs1_prefix` begins the grower's own numbers of
    goods (GTIN); None: not said.
    `phone` is the maker's; `certificate` names an organic certificate (number, certifier), which holds
    until a day.
    """

    __tablename__ = "book"
    name: str
    units: str
    first_day: int
    made_at: datetime = Field(sa_type=Moment)
    begun_as: str = Field(default="", sa_column_kwargs={"server_default": ""})
    pool_first: int | None = None
    pool_last: int | None = None
    stack_height: int | None = None
    currency: str | None = None
    sure_percent: float | None = None
    loss_percent: float | None = None
    work_hours: float | None = None
    maker: str | None = None
    address: str | None = None
    gs1_prefix: str | None = None
    phone: str | None = None
    certificate: str | None = None
    certified_until: date | None = None


class AboutRow(Table, table=True):
    """What this file, a table or a column ("entry.at") holds, with units and zones; '' is the file."""

    __tablename__ = "about"
    name: str = Field(primary_key=True)
    says: str


class PlaceRow(Numbered, table=True):
    """A room, rack or shelf; `position` orders it among its siblings.

    Shelves alone have slots and lamp hours, rooms alone a zone and a day (minutes after midnight,
    `evening` too);
    a room without them goes by the first room that has them.
    """

    __tablename__ = "place"
    parent_id: int | None = Field(default=None, foreign_key="place.id", index=True)
    kind: str
    name: str
    position: int = 0
    slots: int = 0
    lamp_on: int | None = None
    lamp_off: int | None = None
    retired: bool = False
    zone: str | None = None
    day_start: int | None = None
    day_end: int | None = None
    evening: int | None = None
