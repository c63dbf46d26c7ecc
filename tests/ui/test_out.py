"""Copying out, the question who writes, and faults of the program."""

from __future__ import annotations

import asyncio
import base64
from pathlib import Path

import pytest
from textual import work
from textual.pilot import Pilot
from textual.widgets import Input

from logbook.actions.book import Book
from logbook.actions.trays.page import page
from logbook.cli.mishap import keep_trace
from logbook.paths import state_folder
from logbook.text import Refused
from logbook.ui.app import LogbookApp
from logbook.ui.screens.trays.round import RoundScreen
from tests.ui.racks_book import NASTY, SIZES, small_book, walk
from tests.ui.steps import press, said, screen_text, sees, settle, until

SECRET = "the lock's code is 4711"  # noqa: S105 - it stands for a note that must not leak


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return small_book(tmp_path)


def copied() -> str:
    return (state_folder() / "copied.txt").read_text()


# copying


def test_the_line_under_the_cursor_is_handed_to_the_terminal_and_kept_in_a_file(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        sent: list[str] = []
        monkeypatch.setattr(pilot.app._driver, "write", sent.append)
        await press(pilot, "down", "z")
        await until(pilot, lambda: "Copied 1 line" in said(pilot))
        assert str(state_folder() / "copied.txt") in "".join(said(pilot).split("\n"))
        code = base64.b64encode(copied().rstrip("\n").encode()).decode()
        assert f"\x1b]52;c;{code}\a" in sent

    walk(book, story, (80, 24))
    assert "radish" in copied()
    assert copied().count("\n") == 1
    assert (state_folder() / "copied.txt").stat().st_mode & 0o77 == 0


PAGES = {
    "f2": "the round",
    "f3": "Shelf 1",
    "f4": "due",
    "f5": "Sat 4 Apr, today",
    "f7": "weigh-in",
    "f8": "sunflower",
    "f10": "Rack 1",
}


@pytest.mark.parametrize("size", SIZES)
def test_the_whole_page_is_copied_also_what_is_out_of_view(
    book: Book, size: tuple[int, int]
) -> None:
    async def story(pilot: Pilot[None]) -> None:
        for key, words in PAGES.items():
            await press(pilot, key, "Z")
            await until(pilot, lambda: "Copied" in said(pilot))
            assert words in copied()
            assert not [line for line in copied().split("\n") if line != line.rstrip()]

    walk(book, story, size)


def test_nothing_to_copy_is_said(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "f5", "z")
        await until(pilot, lambda: "nothing to copy" in said(pilot))

    walk(book, story, (80, 24))
    assert not (state_folder() / "copied.txt").exists()


# who writes


def test_who_writes_is_asked_once_and_typing_replaces_the_offer(book: Book) -> None:
    told: list[str] = []

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.remember_writer = lambda name: told.append(name) or name  # type: ignore[func-returns-value]
        await press(pilot, "enter")
        await sees(pilot, "Who writes at this terminal?", "changes it later")
        assert pilot.app.screen.query_one(Input).value == book.by
        await press(pilot, "c", "d", "enter")
        await until(pilot, lambda: "water" in said(pilot))
        await press(pilot, "u")
        await until(pilot, lambda: "undone" in said(pilot))

    walk(book, story, (80, 24))
    assert told == ["cd"]
    assert page(book)[-1].by == "cd"


def test_no_answer_writes_nothing_and_asks_again(book: Book) -> None:
    before = len(page(book))

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.remember_writer = str
        await press(pilot, "enter")
        await sees(pilot, "Who writes")
        await press(pilot, "escape")
        await until(pilot, lambda: "Nothing was written." in said(pilot))
        await press(pilot, "enter")
        await sees(pilot, "Who writes")

    walk(book, story, (40, 20))
    assert len(page(book)) == before


def test_initials_that_cannot_be_kept_serve_until_the_book_is_closed(book: Book) -> None:
    def full(_: str) -> str:
        raise Refused("The disk is full.")

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.remember_writer = full
        await press(pilot, "enter")
        await sees(pilot, "Who writes")
        await press(pilot, "enter")
        await until(pilot, lambda: "water" in said(pilot))

    walk(book, story, (80, 24))
    assert page(book)[-1].by == book.by


# faults


class BrokenError(ZeroDivisionError):
    """Stands for any fault of the program."""


@pytest.mark.parametrize("where", ["load", "draw", "action", "worker"])
def test_a_fault_ends_with_a_sentence_and_a_log_without_notes(
    book: Book,
    where: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def fault(*_: object) -> None:
        note = SECRET + NASTY
        raise BrokenError(note)

    async def action(_: RoundScreen) -> None:
        fault()

    if where in ("load", "draw"):
        monkeypatch.setattr(RoundScreen, where, fault)
    elif where == "action":
        monkeypatch.setattr(RoundScreen, "action_jot", action)
    else:
        monkeypatch.setattr(RoundScreen, "action_jot", work(action))
    app = LogbookApp(book, on_mishap=keep_trace)

    async def story() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            await pilot.press("j")
            await until(pilot, lambda: app._exception is not None)

    with pytest.raises(BrokenError):
        asyncio.run(story())
    app._print_error_renderables()
    printed = capsys.readouterr()
    log = (state_folder() / "faults.log").read_text()
    assert "BrokenError" in log
    assert "test_out.py" in log
    assert "Something went wrong inside the program (BrokenError)" in printed.err
    for text in (log, printed.out, printed.err):
        assert "4711" not in text
        assert "Traceback" not in text


def test_a_refusal_is_a_sentence_on_the_screen(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise Refused("The book is locked; try again.")

    monkeypatch.setattr(RoundScreen, "load", refuse)

    async def story(pilot: Pilot[None]) -> None:
        assert "The book is locked; try again." in screen_text(pilot)

    walk(book, story, (40, 20))
