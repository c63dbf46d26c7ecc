"""Questions on a phone's screen: what a key does is never cut in two or off."""

from __future__ import annotations

import asyncio

import pytest
from rich.cells import cell_len
from textual.pilot import Pilot
from textual.widgets import Static

from logbook.actions.book import Book
from logbook.ui.app import LogbookApp
from logbook.ui.columns import whole_hints
from logbook.ui.forms.asking import Question
from tests.ui.racks_book import walk
from tests.ui.steps import press, screen_text, sees
from tests.ui.test_refused_stays import ASKED, book, room

__all__ = ["book", "room"]


def test_hints_are_broken_between_them() -> None:
    hints = "enter save   ctrl+j new line   esc back"
    assert whole_hints(hints, 60) == hints
    assert whole_hints(hints, 38) == "enter save   ctrl+j new line\nesc back"
    assert whole_hints(hints, 10) == "enter save\nctrl+j new line\nesc back"
    assert whole_hints("", 10) == ""


@pytest.mark.parametrize("asked", ASKED)
def test_esc_stands_whole_in_every_question_on_a_phone(book: Book, asked: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, *ASKED[asked][0].split())
        assert isinstance(pilot.app.screen, Question)
        await sees(pilot, "esc back")
        notes = [note for note in pilot.app.screen.query(".note").results(Static) if note.display]
        assert notes or not pilot.app.screen.query(".note")
        for note in notes:
            words = str(note.content)
            assert max(map(cell_len, words.split())) < note.size.width + 1
            assert len(words) <= note.size.width * note.size.height

    walk(book, story, (40, 20))


def test_hints_are_broken_anew_when_the_window_changes(book: Book) -> None:
    async def run() -> None:
        async with LogbookApp(book).run_test(size=(80, 24)) as pilot:
            await press(pilot, "j")
            await sees(pilot, "enter save   ctrl+j new line   esc back")
            await pilot.resize_terminal(40, 20)
            await press(pilot, "a")
            assert "\n esc back" in screen_text(pilot)

    asyncio.run(run())


def test_a_choice_that_is_cut_says_so(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "g")
        assert "r  The round: what every tray needs…" in screen_text(pilot)

    walk(book, story, (40, 20))


def test_of_a_free_slot_the_key_comes_before_the_place(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f3", "down", "down", "down")
        await sees(pilot, "free: n sows   Rack 1/Shelf")

    walk(book, story, (40, 20))
