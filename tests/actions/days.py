"""Short ways to say what happens in a room, and to see all that it shows."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

from logbook.actions.book import Book
from logbook.actions.room.places import PlaceDraft, add_place, list_places
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.due import due
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, Sown, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.clock import FixedClock
from logbook.growing.trays.soaking import SOAK_BY_TEMPLATE
from logbook.store.columns import read_columns
from logbook.store.reads.trays import read_trays
from logbook.text import Refused
from tests.room import day, moment

MORNING = "2026-04-14 07:42"


def stand_at(book: Book, text: str) -> None:
    """Set the book's clock to a wall time of the room."""
    assert isinstance(book.clock, FixedClock)
    book.clock.at = moment(text)


def sow_at(book: Book, text: str, trays: int = 4, **more: Any) -> Sown:
    """Sow the field crop at a wall time, the clock standing there."""
    stand_at(book, text)
    return sow(book, SowDraft("field test", trays, **more))


def soaked_by_template(book: Book, text: str) -> Sown:
    """Sow a tray of the field crop as older versions wrote it: with a soak that nobody spoke of."""
    sown = sow_at(book, text, 1, soaked=moment(text) - timedelta(hours=4))
    with book.file.writing() as connection:
        connection.connection.execute(
            "UPDATE entry SET note = ? WHERE kind = 'soak'", (SOAK_BY_TEMPLATE,)
        )
    return sown


def second_room(book: Book, zone: str, start: int, end: int) -> None:
    """Put in a room of another zone and day (minutes), with the shelf "Bench"; no action does."""
    stand_at(book, "2026-04-01 08:00")
    add_place(book, PlaceDraft("Barn", "room"))
    add_place(book, PlaceDraft("Bench", "shelf", "Barn"))
    with book.file.writing() as connection:
        connection.connection.execute(
            "UPDATE place SET zone = ?, day_start = ?, day_end = ? WHERE name = 'Barn'",
            (zone, start, end),
        )


def chores(book: Book, on: str = "") -> list[tuple[str, tuple[int, ...]]]:
    """Give what is due now (or falls on a day): chore and trays."""
    found = the_round(book, day(on) if on else None)
    return [(line.chore, line.numbers) for line in (found.lines if on else found.due)]


def _page(book: Book, number: int) -> object:
    """Give a tray's page without what was struck and the strikes themselves."""
    try:
        page = tray_page(book, number)
    except Refused:
        return "no tray"
    if page.tray.status == "void":
        return "no tray"
    past = tuple(line for line in page.past if not line.struck and line.kind != "strike")
    return replace(page, past=past)


def views(book: Book, numbers: tuple[int, ...] = tuple(range(101, 113))) -> tuple[object, ...]:
    """Give all that the book shows: rounds, what is due, the racks, places, trays, batches."""
    today = book.today()
    ahead = [the_round(book, today.replace(day=today.day + shift)) for shift in (0, 1, 3)]
    pages = tuple(_page(book, number) for number in numbers)
    return (*ahead, due(book, 30), racks(book), list_places(book), pages)


def batches(book: Book) -> list[object]:
    """Give the standing batches' pages without struck entries."""
    with book.reading() as reading:
        ids = [row[0] for row in reading.rows("SELECT DISTINCT batch_id FROM tray WHERE live = 1")]
    pages = [batch_page(book, str(each)) for each in ids]
    return [
        replace(
            page,
            past=tuple(each for each in page.past if not each.struck and each.kind != "strike"),
        )
        for page in pages
    ]


def counts(book: Book) -> dict[str, int]:
    """Give how many rows each table has: equal counts mean that nothing was written."""
    with book.reading() as reading:
        return {
            name: reading.value(f'SELECT count(*) FROM "{name}"') for name in read_columns(reading)
        }


def summaries_equal_the_fold(book: Book) -> None:
    """Assert that what the tray table keeps is what folding the entries gives."""
    with book.reading() as reading:
        ids = [row[0] for row in reading.rows("SELECT id FROM tray")]
        known = reading.folded(read_trays(reading, ids))
    for each in known:
        state = each.state
        assert (each.stored.live, each.stored.ended_at, each.stored.cut_grams) == (
            state.live,
            state.ended_at,
            state.cut_grams,
        ), each.stored.number
    live = [each.stored.number for each in known if each.stored.live]
    assert len(live) == len(set(live))
