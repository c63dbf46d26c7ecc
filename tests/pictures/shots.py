"""The pictures of README and handbook: which screens of the sample, in which size and state."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

from textual.pilot import Pilot

from logbook.actions.book import Book, open_book
from logbook.handbook import FOLDER
from logbook.settings import Settings
from logbook.ui.app import LogbookApp
from logbook.ui.look import THEMES
from logbook.ui.screens import SCREENS
from logbook.ui.subjects import (
    AirSubject,
    BatchSubject,
    LightSubject,
    RecallSubject,
    SowSubject,
    Subject,
    TraceSubject,
    TraySubject,
    TrialSubject,
    WeighSubject,
)
from sample_db import build
from tests.pictures.drawing import svg_of
from tests.ui.painting import paint
from tests.ui.steps import settle

NOW = datetime.fromisoformat("2026-04-14T07:42:00+01:00")
PICTURES = FOLDER / "pictures"


@dataclass(frozen=True, slots=True)
class Shot:
    """One picture: the screen and what it is about, the keys pressed there, columns and lines."""

    name: str
    screen: str
    keys: tuple[str, ...] = ()
    size: tuple[int, int] = (80, 24)
    theme: str = "dark"
    subject: Subject | None = None
    callouts: Mapping[str, str] = field(default_factory=dict)


SHOTS = (
    Shot("landing", "round", ("down", "down", "down"), callouts={
        "late 24 h": "what is late",
        "best today": "what is ready to cut",
        "enter done": "one key writes it",
    }),
    Shot("round", "round", ("down", "down", "down")),
    Shot("racks", "racks", size=(100, 30)),
    Shot("due", "due"),
    Shot("weigh", "weigh", ("3", "8", "7", "enter"), subject=WeighSubject((450, 451))),
    Shot("sow", "sow", (*"radish", "enter", "4"), subject=SowSubject(place="Rack 1/Shelf 2")),
    Shot("tray", "tray", subject=TraySubject(450)),
    Shot("page", "page", theme="light"),
    Shot("light", "light", subject=LightSubject()),
    Shot("air", "air", ("H",), subject=AirSubject()),
    Shot("trial", "trials", ("enter",), size=(80, 40)),
    Shot("bills", "bills"),
    Shot("deliveries", "deliveries"),
    Shot("yields", "yields"),
    Shot("look", "round", ("down", "down", "down", "l")),
    Shot("phone", "round", size=(40, 20)),
)  # fmt: skip


async def _drawn(book: Book, shot: Shot) -> str:
    app = LogbookApp(book, Settings(theme=shot.theme))
    async with app.run_test(size=shot.size) as pilot:
        await _ready(pilot)
        if shot.screen != "round":
            app.go(shot.subject or shot.screen)
        await _ready(pilot)
        for key in shot.keys:
            await pilot.press(key)
            await _ready(pilot)
        strips = app.screen._compositor.render_strips()
        return svg_of(
            strips, shot.size[0], app.current_theme.background or "#000000", shot.callouts
        )


async def _ready(pilot: Pilot[None]) -> None:
    for _ in range(3):
        await settle(pilot)
    paint(pilot.app.screen)


ABOUT_ONE = {
    "tray": TraySubject(450), "trial": TrialSubject("thicker broccoli"), "batch": BatchSubject("160"),
    "trace": TraceSubject("SU-48A"), "recall": RecallSubject("SU-48A", NOW),
}  # fmt: skip
EVERY = [each for each in SCREENS if each not in ("begin", "chapter")]
LOOKED_AT = ((160, 50), (80, 24), (40, 20))


async def _drawn_in_all(book: Book, size: tuple[int, int]) -> dict[str, str]:
    drawn = {}
    app = LogbookApp(book, Settings(theme="dark"))
    async with app.run_test(size=size) as pilot:
        await _ready(pilot)
        for each in EVERY:
            app.go(ABOUT_ONE.get(each, each))
            for theme in THEMES:
                app.use_colours(theme)
                await _ready(pilot)
                strips = app.screen._compositor.render_strips()
                ground = app.current_theme.background or ""
                ground = ground if ground.startswith("#") else "#000000"
                colours = "16-colours" if theme == "terminal" else theme
                picture = f"{each}-{size[0]}x{size[1]}-{colours}"
                drawn[picture] = svg_of(strips, size[0], ground)
    return drawn


def draw_every_screen() -> dict[str, str]:
    """Draw every screen of a sample book at NOW, by its name, size and theme."""
    drawn: dict[str, str] = {}
    with TemporaryDirectory() as folder:
        book = build(Path(folder) / "sample.book", NOW)
        for size in LOOKED_AT:
            drawn |= asyncio.run(_drawn_in_all(book, size))
    return drawn


def draw_all(make: Callable[[Path, datetime, str], Book] | None = None) -> dict[str, str]:
    """Draw every picture from a sample book of its own at NOW, which `make` may put at a path."""
    drawn = {}
    with TemporaryDirectory() as folder:
        path = Path(folder) / "sample.book"
        book = make(path, NOW, "Europe/Lisbon") if make else build(path, NOW)
        for shot in SHOTS:
            own = Path(folder) / f"{shot.name}.book"
            copyfile(book.file.path, own)
            drawn[shot.name] = asyncio.run(_drawn(open_book(own, book.clock, book.by), shot))
    return drawn
