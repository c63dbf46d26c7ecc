"""A small book for the racks, tray and batch screens, and how to walk through it."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from pathlib import Path

from rich.cells import cell_len
from textual.pilot import Pilot

from logbook.actions.begin import BeginDraft, begin_book
from logbook.actions.book import Book
from logbook.actions.doing import did, jot
from logbook.actions.sowing import SowDraft, sow
from logbook.actions.striking import strike
from logbook.actions.viewing import page
from logbook.actions.weighing import weigh
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from logbook.ui.widgets.bars import Said

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


def empty_book(folder: Path) -> Book:
    """Make a book of one rack with two shelves of six slots, in a zone without surprises."""
    draft = BeginDraft("Test room", "UTC", racks=1, shelves=2, slots=6)
    return begin_book(folder / "room.book", draft, FixedClock(at(1)), "ab")


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


def walk(book: Book, story: Story, size: tuple[int, int]) -> None:
    """Run a story on the app at a size."""

    async def run() -> None:
        app = LogbookApp(book)
        async with app.run_test(size=size) as pilot:
            await settle(pilot)
            await story(pilot)

    asyncio.run(run())


async def settle(pilot: Pilot[None]) -> None:
    """Let what runs in threads end and be drawn; questions that wait for a person stay."""
    for _ in range(200):
        await pilot.pause()
        waiting = [
            worker
            for worker in pilot.app.workers
            if worker.is_running and worker.group in ("view", "remind", "write")
        ]
        if not waiting:
            break
        await pilot.app.workers.wait_for_complete(waiting)
    await pilot.pause()


async def press(pilot: Pilot[None], *keys: str) -> None:
    """Press keys one after the other, and let each have its effect."""
    for key in keys:
        await pilot.press(key)
        await settle(pilot)


async def until(pilot: Pilot[None], true: Callable[[], bool]) -> None:
    """Let the app work until something is so."""
    for _ in range(400):
        if true():
            return
        await pilot.pause(0.01)
    raise AssertionError(screen_text(pilot))


async def sees(pilot: Pilot[None], *words: str) -> None:
    """Let the app work until all of the words are on the screen."""
    await until(pilot, lambda: all(each in screen_text(pilot) for each in words))


def screen_text(pilot: Pilot[None]) -> str:
    """Give what is on the screen."""
    return "\n".join(
        "".join(segment.text for segment in strip)
        for strip in pilot.app.screen._compositor.render_strips()
    )


def said(pilot: Pilot[None]) -> str:
    """Give the line that answered the last key."""
    return str(pilot.app.screen.query_one(Said).render())


def fits(pilot: Pilot[None], size: tuple[int, int]) -> bool:
    """Whether every line has the width of the screen."""
    return all(cell_len(line) == size[0] for line in screen_text(pilot).split("\n"))
