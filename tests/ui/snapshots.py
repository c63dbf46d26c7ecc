"""Pictures of the screens as lines of text, kept in snapshots/, one file a screen.

`UPDATE_SNAPSHOTS=1 python -m pytest tests/ui/test_snapshots.py` writes them anew; read the
difference before committing it.
"""

from __future__ import annotations

import asyncio
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from textual.pilot import Pilot
from textual.screen import Screen

from logbook.actions.book import Book
from logbook.ui.app import LogbookApp
from logbook.ui.subjects import Subject
from tests.ui.steps import press, screen_text, settle, until

FOLDER = Path(__file__).with_name("snapshots")
UPDATING = bool(os.environ.get("UPDATE_SNAPSHOTS"))

Scene = tuple[Subject | str, tuple[str, ...]]
"""What a screen is about, and the keys to press there."""


Size = tuple[int, int]


def draw(app: LogbookApp, scenes: Mapping[str, Scene], size: Size) -> dict[str, str]:
    """Go through scenes named "screen" or "screen, what is shown on it", and draw each."""
    return {name: drawn[0] for name, drawn in draw_resized(app, scenes, (size,)).items()}


def draw_resized(
    app: LogbookApp, scenes: Mapping[str, Scene], sizes: Sequence[Size]
) -> dict[str, list[str]]:
    """Open each scene at the first size and draw it at all, while it stands; by its name."""
    drawn: dict[str, list[str]] = {}

    async def run() -> None:
        async with app.run_test(size=sizes[0]) as pilot:
            await settle(pilot)
            for name, (subject, keys) in scenes.items():
                if app.has_book:
                    app.go(subject)
                    await settle(pilot)
                await press(pilot, *keys)
                drawn[name] = []
                for size in sizes:
                    if size != app.size:
                        await pilot.resize_terminal(*size)
                        await settle(pilot)
                    await until(pilot, lambda: not _unpainted(app.screen))
                    drawn[name].append(lines(pilot))
                while len(app.screen_stack) > 2:
                    await press(pilot, "escape")

    asyncio.run(run())
    return drawn


def _unpainted(screen: Screen[Any]) -> bool:
    """Whether something is to be taken in, laid out or painted yet, like a chart in its place."""
    return bool(
        screen._layout_required
        or screen._dirty_widgets
        or screen._callbacks
        or screen.message_queue_size
    )


def lines(pilot: Pilot[None]) -> str:
    """Give what is on the screen, without the spaces at the ends of lines."""
    return "\n".join(line.rstrip() for line in screen_text(pilot).split("\n"))


def kept(name: str) -> dict[str, str]:
    """Give the pictures that are kept of a screen, by their titles."""
    text = _path(name).read_text(encoding="utf-8")
    pictures = (each.partition("\n") for each in text.removeprefix("== ").split("\n== "))
    return {title: picture.removesuffix("\n") for title, _, picture in pictures}


def _path(name: str) -> Path:
    return FOLDER / f"{name.replace(', ', '-')}.txt"


def compare(name: str, pictures: Mapping[str, str]) -> None:
    """Hold pictures of a screen, by their titles, to what is kept."""
    text = "".join(f"== {title}\n{picture}\n" for title, picture in pictures.items())
    path = _path(name)
    if UPDATING:
        FOLDER.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    assert text == path.read_text(encoding="utf-8"), f"{path.name} is another now"


def first_tray(book: Book) -> int | None:
    """Give the number of the first tray of the round; None for an empty room."""
    from logbook.actions.trays.round import the_round

    return next((number for line in the_round(book).lines for number in line.numbers), None)
