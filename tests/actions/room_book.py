"""A small book with a shelf, lamps and a clock that stands where a test puts it."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.crops.templates import put_template, show_template
from logbook.actions.room.lamps import hang_lamps
from logbook.actions.trays.doing import did
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import FixedClock
from logbook.growing.room.power import LampSet
from tests.made_once import made_once
from tests.room import targets_from

SHELF = "Rack 1/Shelf 1"
OTHER = "Rack 1/Shelf 2"
BAR = LampSet(3, 19.3, "LED bar", "4000 K", 0.17, 120.0, 209.55)


def moment(day: int, hour: int = 8, minute: int = 0, month: int = 4) -> datetime:
    """Give a moment of 2026, in UTC."""
    return datetime(2026, month, day, hour, minute, tzinfo=UTC)


def stand_at(book: Book, at: datetime) -> None:
    """Set the book's clock."""
    assert isinstance(book.clock, FixedClock)
    book.clock.at = at


@made_once
def room_book(folder: Path, zone: str = "UTC", at: datetime | None = None) -> Book:
    """Make a book of one rack with two shelves of six slots, lit 06:00 to 22:00."""
    draft = BeginDraft("Test room", zone, racks=1, shelves=2, slots=6)
    return begin_book(folder / "room.book", draft, FixedClock(at or moment(1)), "ab", "sample")


def lit_batch(book: Book, trays: int = 2) -> None:
    """Sow radish on the first shelf on the spot and bring it to the light at once."""
    sow(book, SowDraft("radish", trays=trays, place=SHELF))
    numbers = list(range(101, 101 + trays))
    did(book, "weight_off", numbers)
    did(book, "light_on", numbers)


def with_targets(book: Book, crop: str, **wanted: str) -> None:
    """Give a template targets."""
    from dataclasses import replace

    template = show_template(book, crop).template
    put_template(book, replace(template, targets=targets_from(wanted)), "targets")


def with_lamps(book: Book) -> None:
    """Hang three bars over each shelf."""
    hang_lamps(book, "Rack 1", BAR)
