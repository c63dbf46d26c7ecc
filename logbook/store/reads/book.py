"""Reading the book's own row, its rooms and their places."""

import sqlite3
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache

from logbook.growing.currencies import Currency
from logbook.growing.days import zone_named
from logbook.growing.keys import TrayNumber, WallTime
from logbook.growing.measures import Units
from logbook.growing.room.places import Place
from logbook.growing.trays.chores import RoomHours
from logbook.store.rows import Rows

USUAL_SURE = 90.0
"""The chance of enough that is wanted where the room does not say, %."""


@dataclass(frozen=True, slots=True)
class About:
    """The book's own row with a room of it (place id); times of its day in minutes."""

    room: int
    name: str
    zone: str
    units: Units
    first_day: int
    day_start: WallTime
    day_end: WallTime
    evening: WallTime | None
    made_at: datetime
    begun_as: str = ""
    pool_first: TrayNumber | None = None
    pool_last: TrayNumber | None = None
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

    @property
    def sure(self) -> float:
        """The chance of enough that is wanted of deliveries, from 0 to 1."""
        return (USUAL_SURE if self.sure_percent is None else self.sure_percent) / 100

    @property
    def kept(self) -> float:
        """The share of a cut that is left after trimming."""
        return 1 - (self.loss_percent or 0.0) / 100

    @property
    def money(self) -> Currency:
        """What its money is in."""
        return Currency(self.currency)

    @property
    def stack(self) -> int:
        """How many weighted trays are stacked."""
        return self.stack_height or 1

    @property
    def pool(self) -> range:
        """The numbers that new trays take in turn; empty where numbers count on."""
        if self.pool_first is None or self.pool_last is None:
            return range(0)
        return range(self.pool_first, self.pool_last + 1)

    @property
    def hours(self) -> RoomHours:
        """The room's day."""
        zone = zone_named(self.zone)
        return RoomHours(zone, self.day_start, self.day_end, self.first_day, self.evening)


def read_rooms(reading: Rows) -> list[About]:
    """The book's own row with each of its rooms, the first room first."""
    rows = reading.make(
        About,
        "SELECT place.id AS room, book.name, zone, units, first_day, day_start, day_end, evening, "
        "made_at, begun_as, pool_first, pool_last, stack_height, currency, "
        "sure_percent, loss_percent, work_hours, maker, address, gs1_prefix, phone, certificate, certified_until "
        "FROM book JOIN place ON zone IS NOT NULL ORDER BY place.id",
    )
    if not rows:
        raise sqlite3.DatabaseError("malformed: the book has no row of its own, or no room")
    return rows


def read_places(reading: Rows) -> list[Place]:
    """All places in walking order, retired ones too."""
    rows = reading.rows(
        "SELECT id, parent_id, kind, name, position, slots, lamp_on, lamp_off, retired FROM place"
    )
    known = {row[0]: row for row in rows}
    first = min((row[0] for row in rows if row[2] == "room"), default=0)

    @cache
    def made(place: int) -> Place:
        _, parent, kind, name, position, slots, lamp_on, lamp_off, retired = known[place]
        above = None if parent is None else made(parent)
        return Place(
            id=place, kind=kind if kind in ("room", "rack") else "shelf", name=name,
            path=name if above is None or above.id == first else f"{above.path}/{name}",
            walk=(*(above.walk if above else ()), position, place), parent=parent, slots=slots,
            lamp_on=lamp_on, lamp_off=lamp_off,
            retired=bool(retired) or (above is not None and above.retired),
        )  # fmt: skip

    return sorted(map(made, known), key=lambda place: place.walk)
