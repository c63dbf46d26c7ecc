"""Keys that come from the terminal in one read: a text goes into its line, two writing letters are asked about."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.trays.page import page
from logbook.ui.line.keys_in_turn import KeysInTurn
from logbook.ui.line.reads import ReadsNumbered, read_of
from tests.ui.list_room import cutting_room
from tests.ui.racks_book import WIDE, walk
from tests.ui.steps import press, screen_text, send, settle


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return cutting_room(tmp_path)


async def in_one_read(pilot: Pilot[None], *keys: str) -> None:
    """Send keys as a code reader does."""
    app = pilot.app
    assert isinstance(app, KeysInTurn)
    parser = ReadsNumbered()
    for message in parser.feed(
        "".join({"enter": "\r", "space": " "}.get(key, key) for key in keys)
    ):
        app.post_message(message)
    await settle(pilot)


def entries(book: Book) -> list[str]:
    return [line.words for line in page(book) if not line.struck]


def test_the_parser_numbers_the_reads() -> None:
    parser = ReadsNumbered()
    first, second = list(parser.feed("ab")), list(parser.feed("c"))
    assert [read_of(message) for message in (*first, *second)] == [1, 1, 2]


def test_two_letters_that_would_write_are_held_until_they_are_meant(book: Book) -> None:
    before = entries(book)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "down", "down")
        await in_one_read(pilot, "LOTWu 7")
        assert "These keys came all at once: L O T W u space 7" in screen_text(pilot)
        await press(pilot, "enter")
        assert entries(book) == before
        await press(pilot, "n")
        assert entries(book) == before
        await in_one_read(pilot, "W", "u")
        assert "all at once" in screen_text(pilot), screen_text(pilot)
        await press(pilot, "y")
        assert "undone: watering" in screen_text(pilot)

    walk(book, story, WIDE)


@pytest.mark.parametrize("text", ["j Wu two three\r", "W", "WW", "j\r"])
def test_one_writing_letter_or_a_text_for_a_line_goes_its_way(book: Book, text: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await in_one_read(pilot, text)
        assert "all at once" not in screen_text(pilot)
        if "two" in text:
            assert any(line.note == "Wu two three" for line in page(book))

    walk(book, story, WIDE)


def test_all_lines_of_the_round_are_done_by_one_read_of_enters(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        send(pilot, "down")
        await in_one_read(pilot, "enter", "enter")
        assert "all at once" not in screen_text(pilot)

    walk(book, story, WIDE)
