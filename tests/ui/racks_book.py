"""A small book for the racks, tray and batch screens, and how to walk through it."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from pathlib import Path

from rich.cells import cell_len
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from tests.made_once import made_once
from tests.ui.steps import screen_text, settle

WIDE, NARROW = (80, 24), (40, 20)
SIZES = [WIDE, NARROW]
NASTY = "[/] [100%] \x1b[31mred\x1b[0m 🌱 é \u202eback"
KEPT = "[/] [100%] [31mred[0m 🌱 é back"
LONG = " ".join(f"word{number}" for number in range(300))

Story = Callable[[Pilot[None]], Awaitable[None]]


def at(day: int, hour: int = 8, minute: int = 0) -> datetime:
    """Give a moment of April 2026, in UTC."""
    return datetime(2026, 4, day, hour, minute, tzinfo=UTC)


def stand_at(book: Book, moment: datetime) -> None:
    """Set the book's clock."""
    assert isinstance(book.clock, FixedClock)
    book.clock.at = moment


@made_once
def empty_book(folder: Path) -> Book:
    """Make a book of one rack with two shelves of six slots, in a zone without surprises."""
    draft = BeginDraft("Test room", "UTC", racks=1, shelves=2, slots=6)
    return begin_book(folder / "room.book", draft, FixedClock(at(1)), "ab")


@made_once
def small_book(folder: Path) -> Book:
    """Make a book as of 10:00 on 4 April.

    Batch 1, radish 101-104 of lot "S [/] 7" with 40 g of seed a tray, sown on the 1st on the first
    shelf; a watering of the 2nd that was struck; 104 was cut on the 3rd with 280 g. Batch 2, kale
    105, sown on the 3rd on the second shelf.
    """
    book = empty_book(folder)
    sow(book, SowDraft("radish", trays=4, lot="S [/] 7", grams=40, colours=("blue",)))
    stand_at(book, at(2, 9))
    did(book, "water", [101, 102, 103, 104])
    (entry,) = (line.id for line in page(book))
    strike(book, entry, "wrong shelf")
    stand_at(book, at(3, 9))
    jot(book, [101], NASTY)
    weigh(book, [104], 280)
    sow(book, SowDraft("kale", trays=1, place="Rack 1/Shelf 2"))
    stand_at(book, at(4, 10))
    return book


def walk(book: Book | None, story: Story, size: tuple[int, int]) -> None:
    """Run a story on the app at a size."""

    async def run() -> None:
        app = LogbookApp(book)
        async with app.run_test(size=size) as pilot:
            await settle(pilot)
            await story(pilot)

    asyncio.run(run())


def fits(pilot: Pilot[None], size: tuple[int, int]) -> bool:
    """Whether every line has the width of the screen."""
    return all(cell_len(line) == size[0] for line in screen_text(pilot).split("\n"))
