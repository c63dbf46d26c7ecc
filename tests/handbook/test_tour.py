"""The tour: offered once, with the sample; a sentence on each screen; Esc leaves at any time."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any, Literal

import pytest
from textual.app import App
from textual.pilot import Pilot
from textual.widgets import Static

from logbook.actions.trays.page import page
from logbook.cli import demo as opening
from logbook.cli.app import top_context
from logbook.cli.options import Options
from logbook.ui.app import LogbookApp
from logbook.ui.commands import COMMANDS, keyed, with_keys
from logbook.ui.forms.asking import AskYes
from logbook.ui.screens.trays.round import RoundScreen
from logbook.ui.tour import STEPS, TourStep, first_time
from tests.ui.list_room import SIZES, cutting_room
from tests.ui.steps import press, settle


def live(
    folder: Path,
    story: Callable[[Pilot[None]], Awaitable[None]],
    tour: Literal["begin", "offer", "none"],
    size: tuple[int, int] = (80, 24),
) -> None:
    book = cutting_room(folder)
    before = page(book)

    async def run() -> None:
        app = LogbookApp(book)
        app.tour = tour
        async with app.run_test(size=size) as pilot:
            await arrive(pilot)
            await story(pilot)

    asyncio.run(run())
    assert page(book) == before


async def arrive(pilot: Pilot[None]) -> None:
    """Wait until the step's screen and strip are drawn."""
    for _ in range(4):
        await settle(pilot)


def asked(app: App[Any]) -> str:
    return str(app.screen.query_one("#asked", Static).render())


@pytest.mark.parametrize("size", SIZES)
def test_enter_walks_through_every_step(tmp_path: Path, size: tuple[int, int]) -> None:
    async def story(pilot: Pilot[None]) -> None:
        for number, step in enumerate(STEPS):
            assert isinstance(pilot.app.screen, TourStep), number
            assert asked(pilot.app) == keyed(step.words, COMMANDS)
            under = type(pilot.app.screen_stack[-2]).__name__
            assert under.casefold() == f"{step.command}screen"
            assert pilot.app.screen.query_one("#strip").size.height < size[1] // 2
            assert "enter" in str(pilot.app.screen.query_one("#hint", Static).content)
            await press(pilot, "enter")
            await arrive(pilot)
        assert isinstance(pilot.app.screen, RoundScreen)

    live(tmp_path, story, "begin", size)


def test_the_named_keys_go_on_too(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "enter", "f3")
        await arrive(pilot)
        assert asked(pilot.app) == keyed(STEPS[2].words, COMMANDS)
        await press(pilot, "f9")
        assert asked(pilot.app) == keyed(STEPS[2].words, COMMANDS)

    live(tmp_path, story, "begin")


@pytest.mark.parametrize("steps", [0, 3])
def test_escape_leaves_at_any_step(tmp_path: Path, steps: int) -> None:
    async def story(pilot: Pilot[None]) -> None:
        for _ in range(steps):
            await press(pilot, "enter")
            await arrive(pilot)
        await press(pilot, "escape")
        await arrive(pilot)
        assert isinstance(pilot.app.screen, RoundScreen)
        assert len(pilot.app.screen_stack) == 2

    live(tmp_path, story, "begin")


def test_an_offer_is_an_offer(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app.screen, AskYes)
        await press(pilot, "escape")
        await arrive(pilot)
        assert isinstance(pilot.app.screen, RoundScreen)

    live(tmp_path, story, "offer")


def test_a_step_names_the_keys_that_the_settings_give() -> None:
    commands = with_keys({"undo": "U", "handbook": "B"}, {})
    said = " ".join(keyed(step.words, commands) for step in STEPS)
    assert "U undoes it" in said
    assert "B the handbook" in said


def test_no_tour_unless_wanted(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app.screen, RoundScreen)

    live(tmp_path, story, "none")


def test_the_handbook_begins_it(tmp_path: Path) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "h")
        await arrive(pilot)
        await pilot.press("end", "enter")
        await arrive(pilot)
        assert asked(pilot.app) == keyed(STEPS[0].words, COMMANDS)

    live(tmp_path, story, "none")


def test_it_is_offered_once() -> None:
    assert [first_time(), first_time(), first_time()] == [True, False, False]


def test_where_nothing_can_be_kept_it_is_offered_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "file" / "below"))
    assert [first_time(), first_time()] == [True, True]


@pytest.mark.parametrize(
    ("asked_for", "before", "wanted"),
    [
        (None, False, "offer"),
        (None, True, "none"),
        (True, True, "begin"),
        (False, False, "none"),
    ],
)
def test_the_demo_asks_the_first_time_alone(
    monkeypatch: pytest.MonkeyPatch, asked_for: bool | None, before: bool, wanted: str
) -> None:
    if before:
        first_time()
    began: list[str] = []
    monkeypatch.setattr(opening, "has_screen", lambda: True)
    monkeypatch.setattr(opening, "run_app", lambda _book, _top, tour: began.append(tour))
    opening.open_demo(Options(None, "2026-04-14T07:42", None), top_context, None, asked_for)
    assert began == [wanted]
