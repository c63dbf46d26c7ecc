"""While the app is open: the clock is watched, the book is looked after, drafts come back."""

from __future__ import annotations

from datetime import timedelta

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from logbook.actions.book import Book
from logbook.actions.care.checking import look_after
from logbook.actions.copies import list_copies
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.round import the_round
from logbook.clock import FixedClock
from logbook.growing.days import day_of, day_words
from logbook.ui.app import LogbookApp
from logbook.ui.deeds import TrayKeys
from logbook.ui.subjects import Chosen
from tests.ui.racks_book import walk
from tests.ui.steps import press, said, screen_text, settle, until
from tests.ui.test_round import book

__all__ = ["book"]


def test_a_late_clock_is_said_and_the_time_is_asked(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    book.clock.at -= timedelta(hours=26)  # earlier than the sowing was written

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        await until(pilot, lambda: "The clock is behind" in screen_text(pilot))
        pilot.app.go("page")
        await settle(pilot)
        await until(pilot, lambda: "The clock is behind" in screen_text(pilot))

    walk(book, story, (80, 24))


@pytest.mark.parametrize("size", [(80, 24), (40, 20), (40, 15)])
def test_all_of_what_is_wrong_with_the_clock_is_said(book: Book, size: tuple[int, int]) -> None:
    assert isinstance(book.clock, FixedClock)
    book.clock.at -= timedelta(hours=26)

    async def story(pilot: Pilot[None]) -> None:
        def words() -> str:
            return " ".join(screen_text(pilot).split())

        doubt = book.clock_doubt()
        assert doubt.endswith("09:00.")
        await until(pilot, lambda: doubt in words())

    walk(book, story, size)


def test_with_a_late_clock_done_asks_when(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.doubt = "The clock is behind."
        await press(pilot, "enter")
        await until(pilot, lambda: "When was it done?" in screen_text(pilot))
        assert pilot.app.screen.query_one(Input).value == "10:00"
        pilot.app.screen.query_one(Input).value = "09:30"
        await press(pilot, "enter")
        await until(pilot, lambda: "water" in said(pilot))

    walk(book, story, (80, 24))
    assert [(line.at.hour, line.at.minute) for line in page(book)] == [(8, 30)] * 2


def test_what_is_done_by_a_late_clock_is_written_with_the_time_that_is_offered(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    book.clock.at += timedelta(seconds=30)
    written = book.now()
    jot(book, [101], "in time")
    book.clock.at -= timedelta(hours=26)

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        app = pilot.app
        await until(pilot, lambda: bool(app.doubt))
        screen = app.screen
        assert isinstance(screen, TrayKeys)
        screen.run_worker(screen.do_chore(Chosen((101,), "water", "water"), when=True))
        await until(pilot, lambda: "When was it done?" in " ".join(screen_text(pilot).split()))
        assert app.screen.query_one(Input).value.endswith("T10:01")
        await press(pilot, "enter")
        await until(pilot, lambda: "water" in said(pilot))

    walk(book, story, (40, 20))
    (_, line) = page(book, day_of(written, book.zone))
    assert line.clock_in_doubt
    assert line.at == written + timedelta(seconds=30)


def test_the_book_is_checked_and_copied_once_a_day(book: Book) -> None:
    assert list_copies(book.file.path) == []
    assert not any("There is no copy" in words for words in look_after(book))
    (copy,) = list_copies(book.file.path)
    assert copy.day == book.today()
    look_after(book)
    assert [each.path for each in list_copies(book.file.path)] == [copy.path]


def test_what_is_not_in_order_is_said_on_the_screen(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.care = lambda _book, _settings: ["The disk is nearly full.", "And more."]
        pilot.app.look_after()
        await until(pilot, lambda: "The disk is nearly full. And 1 more" in said(pilot))
        pilot.app.say("101 watered.")
        pilot.app.look_after()
        await until(pilot, lambda: said(pilot).startswith("101 watered.\nThe disk is nearly full."))
        for chore in ("water", "look"):
            pilot.app.notice("due", f"Due now: {chore}.")
        assert said(pilot).endswith("more: `logbook check`.\nDue now: look.")
        await press(pilot, "j", "dry edge")
        pilot.app.notice("care", "The book is in /tmp.")
        pilot.app.notice("due", "Due now: cut.")
        await press(pilot, "enter")
        pilot.app.look_at_file()
        assert said(pilot) == "jotted on 101–106.\nThe book is in /tmp.\nDue now: cut."

    walk(book, story, (80, 24))


def test_an_app_that_stays_open_looks_after_the_book_each_day(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    clock, first = book.clock, book.today()

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.care = look_after
        pilot.app.look_after()
        for _hour in range(0, 56, 8):
            await pilot.app.workers.wait_for_complete()
            pilot.app.tick()
            clock.at += timedelta(hours=8)
        await pilot.app.workers.wait_for_complete()

    walk(book, story, (80, 24))
    days = [copy.day for copy in list_copies(book.file.path)]
    assert days == [first + timedelta(days=back) for back in (2, 1, 0)]


def test_a_day_and_a_night_ring_at_each_chore_and_turn_the_date(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    clock, rung = book.clock, []

    def due() -> set[tuple[object, object]]:
        return {(line.key, line.due_at) for line in the_round(book).due}

    def do_all() -> None:
        for line in the_round(book).due:
            did(book, line.chore, line.numbers)

    do_all()

    async def story(pilot: Pilot[None]) -> None:
        assert isinstance(pilot.app, LogbookApp)
        pilot.app.bell = lambda: rung.append(clock.at)  # type: ignore[method-assign]
        pilot.app.tick()
        await settle(pilot)
        wanted, before, began = [], due(), book.today()
        for hour in range(25):
            clock.at += timedelta(hours=1)
            if hour == 12:
                pilot.app.go("racks")
                await settle(pilot)
            pilot.app.tick()
            await settle(pilot)
            came = due() - before
            if came:
                wanted.append(clock.at)
                assert "Due now" in said(pilot)
                do_all()
            before = due()
            assert day_words(book.today()) in screen_text(pilot)
        assert rung == wanted
        assert len(wanted) > 1
        assert day_of(wanted[-1], book.zone) > began  # also past midnight

    walk(book, story, (80, 24))
