"""Customers, mixes, what they order, when that pauses and what was packed."""

from datetime import date

from sqlmodel import Field

from logbook.store.tables.base import LINK, OfEntry


class CustomerRow(OfEntry, table=True):
    """A customer as an entry of kind "customer" says; the newest standing one of `customer_id` holds.

    `customer_id` is the entry that first named them. `weekdays` are delivery days ("tue,fri"), `minute`
    is when deliveries are wanted, after midnight; `gone` says that they are no customer any more; `near`
    that a kitchen or shop is in the farm's State or not more than 275 miles away. None: not said.
    """

    __tablename__ = "customer"
    customer_id: int = Field(foreign_key="entry.id")
    name: str
    name_key: str
    kind: str
    contact: str = ""
    weekdays: str = ""
    minute: int | None = None
    gone: bool = False
    near: bool | None = None


class MixRow(OfEntry, table=True):
    """A mix of crops from the day `since` on; `mix_id` is the entry that first named it."""

    __tablename__ = "mix"
    mix_id: int = Field(foreign_key="entry.id")
    name: str
    name_key: str
    since: date
    gone: bool = False


class MixPartRow(OfEntry, table=True):
    """How many parts of a mix, by weight, are of a crop."""

    __tablename__ = "mix_part"
    __table_args__ = LINK
    entry_id: int = Field(foreign_key="mix.entry_id", primary_key=True)
    template_id: int = Field(foreign_key="template.id", primary_key=True)
    parts: float


class OrderLineRow(OfEntry, table=True):
    """What a customer orders: packs of a crop or a mix, or live trays where `pack_grams` is null.

    `order_id` is the entry that first said it. A standing line is wanted on `weekdays` ("tue,fri")
    from `since` until `until`, both included: of its rows the one with the latest `since` holds on a day.
    A single order has no weekdays and is wanted on `since`: its newest row holds. `price` is per
    pack, a decimal; `gone` ends it.
    """

    __tablename__ = "order_line"
    order_id: int = Field(foreign_key="entry.id", index=True)
    customer_id: int = Field(foreign_key="entry.id")
    template_id: int | None = Field(default=None, foreign_key="template.id")
    mix_id: int | None = Field(default=None, foreign_key="entry.id")
    packs: int
    pack_grams: float | None = None
    weekdays: str = ""
    minute: int | None = None
    since: date
    until: date | None = Field(default=None, index=True)
    price: str | None = None
    gone: bool = False


class OrderPauseRow(OfEntry, table=True):
    """From which day until which a customer, or one standing line of theirs, takes nothing."""

    __tablename__ = "order_pause"
    customer_id: int = Field(foreign_key="entry.id")
    order_id: int | None = Field(default=None, foreign_key="entry.id")
    since: date
    until: date


class PackedRow(OfEntry, table=True):
    """Packs, or live trays where `pack_grams` is null, that were packed for the delivery of a day."""

    __tablename__ = "packed"
    order_id: int | None = Field(default=None, foreign_key="entry.id")
    customer_id: int = Field(foreign_key="entry.id")
    template_id: int | None = Field(default=None, foreign_key="template.id")
    mix_id: int | None = Field(default=None, foreign_key="entry.id")
    packs: int
    pack_grams: float | None = None
    day: date = Field(index=True)
