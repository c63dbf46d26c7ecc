"""What is typed is kept until it is written: the weigh-in's line, and answers to questions."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from logbook.actions.book import Book
from logbook.actions.trays.page import page
from logbook.ui.app import LogbookApp
from logbook.ui.screens.trays.weigh import WeighScreen
from logbook.ui.widgets.form_lines import FormNote
from logbook.ui.widgets.line_input import TillInput
from tests.ui.list_room import cutting_room
from tests.ui.racks_book import walk
from tests.ui.steps import press, screen_text, sees, send, settle, until

WIDE = (80, 24)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return cutting_room(tmp_path)


def line(pilot: Pilot[None]) -> TillInput:
    return pilot.app.screen.query_one(TillInput)


def test_a_weight_that_was_being_typed_is_offered_again_for_its_tray(book: Book) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await press(pilot, "w", "down", "28")
        assert line(pilot).value == "28"

    async def second(pilot: Pilot[None]) -> None:
        await sees(pilot, "Not saved last time", 'weigh 102: "28"')
        await press(pilot, "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, WeighScreen))
        await sees(pilot, "is not written yet")
        await press(pilot, "3", "enter")
        await until(pilot, lambda: len(page(book)) == 1)

    async def third(pilot: Pilot[None]) -> None:
        assert "Not saved" not in screen_text(pilot)

    walk(book, first, WIDE)
    walk(book, second, WIDE)
    walk(book, third, WIDE)
    assert page(book)[0].trays == (102,)
    assert "283 g" in page(book)[0].words


def test_a_line_that_is_emptied_is_not_kept(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        await press(pilot, "w", "28")
        assert pilot.app.drafts.all()
        await press(pilot, "escape")
        assert not pilot.app.drafts.all()
        await press(pilot, "2", "backspace")
        assert not pilot.app.drafts.all()

    walk(book, story, WIDE)


def test_a_weight_that_is_asked_about_is_kept_with_its_tray_meanwhile(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        await press(pilot, "w", "9000", "enter")
        await sees(pilot, "y or /")
        (draft,) = pilot.app.drafts.all()
        assert draft.texts == {"line": "101 9000"}
        await press(pilot, "n")
        (draft,) = pilot.app.drafts.all()
        assert draft.texts == {"line": "9000"}

    walk(book, story, WIDE)
    assert page(book) == []


def test_a_reason_stands_there_when_it_is_asked_again(book: Book) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await press(pilot, "s", "too wet")

    async def second(pilot: Pilot[None]) -> None:
        assert "Not saved" not in screen_text(pilot)
        await press(pilot, "s")
        assert pilot.app.screen.query_one(Input).value == "too wet"
        await press(pilot, "enter")
        await settle(pilot)
        assert isinstance(pilot.app, LogbookApp)
        assert not pilot.app.drafts.all()

    walk(book, first, WIDE)
    walk(book, second, WIDE)
    assert page(book)[0].note == "too wet"


@pytest.mark.parametrize(("keys", "asked"), [("w 2 8", "Close the book anyway?"),
                                             ("n c r", "This form is not saved")])  # fmt: skip
def test_ctrl_c_asks_when_something_is_unsaved(book: Book, keys: str, asked: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, *keys.split())
        await pilot.press("ctrl+c")
        await sees(pilot, asked)
        assert pilot.app.is_running
        await pilot.press("escape")
        await until(pilot, lambda: asked not in screen_text(pilot))
        assert isinstance(pilot.app, LogbookApp)
        assert pilot.app.drafts.all()

    walk(book, story, WIDE)


@pytest.mark.parametrize("keys", ["j", "l", "s"])
def test_ctrl_c_in_a_question_closes_nothing(book: Book, keys: str) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, keys, "4", "2")
        await pilot.press("ctrl+c", "ctrl+c")
        await settle(pilot)
        assert pilot.app.is_running
        assert "42" in screen_text(pilot)

    walk(book, story, WIDE)


def test_ctrl_c_closes_at_once_when_nothing_is_unsaved(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+c")
        await until(pilot, lambda: not pilot.app.is_running)

    walk(book, story, WIDE)


def test_what_is_kept_is_its_owners_alone(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "j", "a")
        assert isinstance(pilot.app, LogbookApp)
        folder = pilot.app.drafts.folder
        modes = {each.stat().st_mode & 0o777 for each in folder.iterdir()}
        assert modes == {0o600}
        for each in (folder, folder.parent, folder.parent.parent):
            assert each.stat().st_mode & 0o777 == 0o700, each

    umask = os.umask(0o002)  # as many machines have it
    try:
        walk(book, story, WIDE)
    finally:
        os.umask(umask)


def test_keys_typed_before_a_kept_note_is_offered_do_not_save_it(book: Book) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await press(pilot, "j", "half a note")

    async def second(pilot: Pilot[None]) -> None:
        await sees(pilot, "Not saved last time", "half a note")
        send(pilot, "101")
        send(pilot, "enter")
        send(pilot, "1")
        await settle(pilot)
        assert pilot.app.screen.query_one(FormNote).text == "half a note1"
        assert not page(book)

    walk(book, first, WIDE)
    walk(book, second, WIDE)
