"""A small room and the steps of stories on the forms."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from logbook.ui.forms.form import FormScreen
from logbook.ui.subjects import Subject
from tests.made_once import made_once
from tests.ui.steps import screen_text, send, settle

NOW = datetime(2026, 4, 1, 8, tzinfo=UTC)
SIZES = [(80, 24), (40, 20)]
NASTY = "[/] [100%] \x1b[31mred\x1b[0m 🌱 é \u202eback"
CLEANED = "[/] [100%] [31mred[0m 🌱 é back"
Story = Callable[[Pilot[None]], Awaitable[None]]


def make_book(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    """Give a book of one rack with two shelves of four slots; it is 09:00 in Lisbon."""
    monkeypatch.setenv("XDG_STATE_HOME", str(folder / "state"))
    return room_in_lisbon(folder)


@made_once
def room_in_lisbon(folder: Path) -> Book:
    """Make the book of make_book."""
    draft = BeginDraft("Test room", "Europe/Lisbon", racks=1, shelves=2, slots=4)
    return begin_book(folder / "room.book", draft, FixedClock(NOW), "ab")


def play(app: LogbookApp, story: Story, size: tuple[int, int] = (80, 24)) -> None:
    """Run a story on the app at a size."""

    async def run() -> None:
        async with app.run_test(size=size) as pilot:
            await settle(pilot)
            await story(pilot)

    asyncio.run(run())


async def burst(pilot: Pilot[None], *keys: str) -> None:
    """Send keys all at once, as a slow link does."""
    for key in keys:
        send(pilot, key)
    await settle(pilot)


async def paste(pilot: Pilot[None], text: str) -> None:
    """Paste a text where the cursor is."""
    pilot.app.post_message(events.Paste(text))
    await settle(pilot)


async def go(pilot: Pilot[None], to: str | Subject) -> FormScreen:
    """Go to a form as another screen would."""
    app = pilot.app
    assert isinstance(app, LogbookApp)
    app.go(to)
    await settle(pilot)
    return form(pilot)


def form(pilot: Pilot[None]) -> FormScreen:
    """Give the form that is shown."""
    screen = pilot.app.screen
    assert isinstance(screen, FormScreen), screen
    return screen


async def fill(pilot: Pilot[None], **texts: str) -> None:
    """Put texts into lines as if they had been typed; "stage_1" is the line stage-1."""
    form(pilot).body.put_texts(
        {name.replace("stage_", "stage-"): text for name, text in texts.items()}
    )
    await settle(pilot)


def flat(pilot: Pilot[None]) -> str:
    """Give what is on the screen with every gap as one space."""
    return " ".join(screen_text(pilot).split())
