"""Building the sample book."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.actions.begin import BeginDraft, begin_book
from logbook.actions.book import Book, open_book
from logbook.clock import Clock, FixedClock
from logbook.growing.days import zone_named
from logbook.store.reads import read_places
from sample_db.days import DAYS_BEHIND, Days
from sample_db.people import OWNER, on_duty
from sample_db.room import NAME, RACKS, SHELVES
from sample_db.season import live_season
from sample_db.shelves import Shelves
from sample_db.versions import write_versions
from sample_db.world import World

if TYPE_CHECKING:
    from logbook.actions.writing import Act

ZONE = "Europe/Lisbon"


def build(path: Path, now: datetime, *, zone: str = ZONE, clock: Clock | None = None) -> Book:
    """Make the sample book at `path` as it stands at `now` (aware), and open it.

    The same `now` and zone give the same content. The book is opened with `clock`, or with one
    that stands at `now`, by whoever walks the round that day. The rows are written in bulk, in
    one transaction: thousands of acts of their own would be synced one by one.

    Raises:
        Refused: there is already something at the path, no such zone, or the disk is full.
    """
    days = Days.around(now, zone_named(zone))
    begun = FixedClock(days.on(DAYS_BEHIND))
    draft = BeginDraft(
        name=NAME, zone=zone, racks=len(RACKS), shelves=SHELVES, slots=RACKS[0].slots
    )
    book = begin_book(path, draft, begun, OWNER)
    with book.writing() as act:
        _furnish(act, days)
        world = World(days, Shelves(read_places(act.reading)), write_versions(act, days))
        live_season(world).write(act.session)
    return open_book(path, clock or FixedClock(now), on_duty(days.today))


def _furnish(act: Act, days: Days) -> None:
    """Give the racks their names, slots and lamps, and the room its hours."""
    from sqlmodel import col, select

    from logbook.store.tables import BookRow, PlaceRow

    about = act.session.exec(select(BookRow)).one()
    about.day_start, about.day_end = days.hours.start, days.hours.end
    racks = act.session.exec(
        select(PlaceRow).where(PlaceRow.kind == "rack").order_by(col(PlaceRow.position))
    ).all()
    for row, rack in zip(racks, RACKS, strict=True):
        row.name = rack.name
        for shelf in act.session.exec(select(PlaceRow).where(PlaceRow.parent_id == row.id)):
            shelf.slots, shelf.lamp_on, shelf.lamp_off = rack.slots, rack.lamp_on, rack.lamp_off
