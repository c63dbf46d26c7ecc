"""A small room for the stories of the list screens, and a way to walk through it."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.content import Content
from textual.pilot import Pilot
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from logbook.ui.subjects import Subject
from logbook.ui.widgets.walk_list import WalkList
from tests.made_once import made_once
from tests.ui.steps import settle

SIZES = [(80, 24), (40, 20)]
NASTY = "[/] [100%] \x1b[31mred\x1b[0m 🌱 é \u202eback"

Story = Callable[[Pilot[None]], Awaitable[None]]


@made_once
def empty_room(folder: Path, units: str = "metric") -> Book:
    """Give a new book: one rack of two shelves of six slots, at 09:00 on 20 March."""
    return begin_book(
        folder / "room.book",
        BeginDraft("Test room", "Europe/London", racks=1, shelves=2, slots=6, units=units),
        FixedClock(datetime(2026, 3, 20, 9, tzinfo=UTC)),
        "ab",
    )


@made_once
def cutting_room(folder: Path, units: str = "metric") -> Book:
    """Give a book with radish 101-104 ready to cut and kale 105 106 that is not.

    It is 09:00 on 28 March; radish is best at 09:00 on the 29th.
    """
    book = empty_room(folder, units)
    sow(book, SowDraft("radish", trays=4))
    for day, chore in ((23, "weight_off"), (24, "light_on")):
        at(book, datetime(2026, 3, day, 9, tzinfo=UTC))
        did(book, chore, [101, 102, 103, 104])
    at(book, datetime(2026, 3, 26, 9, tzinfo=UTC))
    sow(book, SowDraft("kale", trays=2))
    at(book, datetime(2026, 3, 28, 9, tzinfo=UTC))
    return book


def at(book: Book, moment: datetime) -> None:
    """Set the room's clock."""
    assert isinstance(book.clock, FixedClock)
    book.clock.at = moment


def walk(book: Book, to: str | Subject, story: Story, size: tuple[int, int]) -> None:
    """Open the app, go to a screen, and live the story."""

    async def run() -> None:
        app = LogbookApp(book)
        async with app.run_test(size=size) as pilot:
            await settle(pilot)
            app.go(to)
            await settle(pilot)
            await story(pilot)

    asyncio.run(run())


def where_to(pilot: Pilot[None], monkeypatch: pytest.MonkeyPatch) -> list[str | Subject]:
    """Give a list that fills with where the app is sent, instead of going there."""
    went: list[str | Subject] = []
    monkeypatch.setattr(pilot.app, "go", went.append)
    return went


def rows(pilot: Pilot[None]) -> list[str]:
    """Give the rows of the list as text."""
    return [row.text.plain for row in pilot.app.screen.query_one(WalkList).rows]


def words(pilot: Pilot[None], name: str) -> str:
    """Give what a line of the screen says."""
    content = pilot.app.screen.query_one(f"#{name}", Static).content
    return content.plain if isinstance(content, Content) else str(content)


def widest(pilot: Pilot[None]) -> int:
    """Give the cells of the longest line of the list."""
    return max(
        (Content(line).cell_length for row in rows(pilot) for line in row.split("\n")), default=0
    )
