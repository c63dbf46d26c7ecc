"""Building the sample book."""

from datetime import datetime
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book, currency_of_zone
from logbook.actions.room.places import PlaceDraft, RoomDraft, add_place, change_room
from logbook.clock import Clock, FixedClock
from logbook.growing.days import zone_named
from sample_db.days import DAYS_BEHIND, Days
from sample_db.room import LONGER_NIGHT, NAME, OWNER, RACKS, SHELVES, on_duty

ZONE = "Europe/Lisbon"


def build(path: Path, now: datetime, *, zone: str = ZONE, clock: Clock | None = None) -> Book:
    """Make the sample book at `path` as it stands at `now` (aware), and open it.

    The same `now` and zone give the same content, in one transaction: thousands of acts would be
    synced one by one. It is opened with `clock`, or one that stands at `now`, by whoever walks the
    round that day. Raises Refused where it cannot be put there.
    """
    from sample_db.months import Months
    from sample_db.season import live_season

    days = Days.around(now, zone_named(zone))
    begun = FixedClock(days.on(DAYS_BEHIND))
    first = RACKS[0]
    draft = BeginDraft(
        name=NAME, zone=zone, racks=1, shelves=SHELVES, slots=first.slots,
        lamp_on=first.lamp_on, lamp_off=first.lamp_off, currency=currency_of_zone(zone) or "EUR",
    )  # fmt: skip
    book = begin_book(path, draft, begun, OWNER, "sample")
    with book.file.writing() as writer:
        months = Months(book.file, begun, OWNER, book.about, writer=writer)
        _furnish(months, days)
        live_season(months, days)
    return open_book(path, clock or FixedClock(now), on_duty(days.today))


def _furnish(book: Book, days: Days) -> None:
    address = "7 Weir Row; Marsh End"
    change_room(
        book,
        RoomDraft(day_start=days.hours.start, day_end=days.hours.end, maker=NAME, address=address),
    )
    for rack in RACKS[1:]:
        add_place(book, PlaceDraft(rack.name, "rack"))
        for shelf in range(1, SHELVES + 1):
            off = LONGER_NIGHT[3] if LONGER_NIGHT[:2] == (rack.name, shelf) else rack.lamp_off
            slots, on = rack.slots, rack.lamp_on
            add_place(book, PlaceDraft(f"Shelf {shelf}", "shelf", rack.name, slots, on, off))
