"""Pictures of the screens as lines of text, kept in snapshots/, one file a screen.

`UPDATE_SNAPSHOTS=1 python -m pytest tests/ui/test_snapshots.py` writes them anew; read the
difference before committing it.
"""

from __future__ import annotations

import asyncio
import os
from collections.abc import Mapping
from pathlib import Path

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.ui.app import LogbookApp
from tests.ui.forms_room import settle
from tests.ui.racks_book import screen_text

FOLDER = Path(__file__).with_name("snapshots")
UPDATING = bool(os.environ.get("UPDATE_SNAPSHOTS"))

Scene = tuple[Mapping[str, object], tuple[str, ...]]
"""What a screen is about, and the keys to press there."""


def draw(app: LogbookApp, scenes: Mapping[str, Scene], size: tuple[int, int]) -> dict[str, str]:
    """Go through scenes named "screen" or "screen, what is shown on it", and draw each."""
    drawn: dict[str, str] = {}

    async def run() -> None:
        async with app.run_test(size=size) as pilot:
            await settle(pilot)
            for name, (subject, keys) in scenes.items():
                if app.has_book:
                    app.go(name.partition(",")[0], **subject)
                    await settle(pilot)
                for key in keys:
                    await pilot.press(key)
                    await settle(pilot)
                drawn[name] = lines(pilot)
                while len(app.screen_stack) > 2:
                    await pilot.press("escape")
                    await settle(pilot)

    asyncio.run(run())
    return drawn


def lines(pilot: Pilot[None]) -> str:
    """Give what is on the screen, without the spaces at the ends of lines."""
    return "\n".join(line.rstrip() for line in screen_text(pilot).split("\n"))


def compare(name: str, pictures: Mapping[str, str]) -> None:
    """Hold pictures of a screen, by their titles, to what is kept."""
    text = "".join(f"== {title}\n{picture}\n" for title, picture in pictures.items())
    path = FOLDER / f"{name.replace(', ', '-')}.txt"
    if UPDATING:
        FOLDER.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    assert text == path.read_text(encoding="utf-8"), f"{path.name} is another now"


def first_tray(book: Book) -> int | None:
    """Give the number of the first tray of the round; None for an empty room."""
    from logbook.actions.viewing import the_round

    return next((number for line in the_round(book).lines for number in line.numbers), None)
