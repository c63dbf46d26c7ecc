"""The line at the foot names only keys that do something, on every screen."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.ui.app import LogbookApp
from logbook.ui.screen import LogScreen
from logbook.ui.subjects import BatchSubject, TraceSubject, TraySubject
from logbook.ui.widgets.bars import Sentence
from tests.ui.racks_book import empty_book, small_book
from tests.ui.snapshots import Scene
from tests.ui.steps import press, screen_text, settle
from tests.ui.test_snapshots import LISTS

OF_ONE: Mapping[str, Scene] = {
    "tray": (TraySubject(101), ()), "batch": (BatchSubject("1"), ()), "trace": (TraceSubject("105"), ()),
}  # fmt: skip
BOOKS: dict[str, tuple[Callable[[Path], Book], Mapping[str, Scene]]] = {
    "empty": (empty_book, {name: (name, ()) for name in LISTS}),
    "with trays": (small_book, {**OF_ONE, "weigh": ("weigh", ()), "places": ("places", ())}),
}


def _said(pilot: Pilot[None]) -> str:
    return str(pilot.app.screen.query_one(Sentence).content).strip()


async def _dead(pilot: Pilot[None], key: str) -> str:
    """What is said of a key that does nothing; '' where it asks, goes elsewhere, writes or changes."""
    screen, before, said = pilot.app.screen, screen_text(pilot), _said(pilot)
    await press(pilot, key)
    if pilot.app.screen is not screen:
        return ""
    if screen_text(pilot) == before:
        return "nothing"
    return "" if _said(pilot) in (said, "") or "undoes" in _said(pilot) else _said(pilot)


async def _dead_keys(pilot: Pilot[None], scenes: Mapping[str, Scene]) -> list[str]:
    found, app = list[str](), pilot.app
    assert isinstance(app, LogbookApp)
    for name, (subject, _) in scenes.items():
        app.go(subject)
        await settle(pilot)
        assert isinstance(app.screen, LogScreen)
        for command in app.screen.foot_commands()[:-1]:  # ? is the same everywhere
            if dead := await _dead(pilot, command.key):
                found.append(f"{name}, {command.key_words} {command.words}: {dead}")
            while len(app.screen_stack) > 2:
                await press(pilot, "escape")
            app.go(subject)
            await settle(pilot)
    return found


@pytest.mark.parametrize("kind", BOOKS)
def test_every_key_of_the_foot_does_something(tmp_path: Path, kind: str) -> None:
    make, scenes = BOOKS[kind]

    async def run() -> None:
        async with LogbookApp(make(tmp_path)).run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            assert await _dead_keys(pilot, scenes) == []

    asyncio.run(run())
