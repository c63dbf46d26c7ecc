"""The screen of the plan: Enter accepts a line or a day, and it can be asked what may be promised."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.orders.listing import list_orders
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.planning.plan import plan
from logbook.ui.app import LogbookApp
from tests.actions.days import stand_at
from tests.ui.forms_room import play
from tests.ui.racks_book import SIZES
from tests.ui.steps import press, screen_text


@pytest.mark.parametrize("size", SIZES)
def test_enter_accepts_a_day_and_a_line(book: Book, size: tuple[int, int]) -> None:
    stand_at(book, "2026-04-01 08:00")
    for text in ("field test 1kg fri 10 apr 06:00", "radish 500g fri 10 apr 06:00",
                 "field test 1kg tue 14 apr 06:00"):  # fmt: skip
        order(book, OrderDraft("Bistro", text))
    days = [each.day for each in plan(book).sowings]
    assert len(days) == 3

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "S", "enter")
        assert "planned: " in " ".join(screen_text(pilot).split())
        assert [each.day for each in plan(book).sowings] == days[1:]
        await press(pilot, "home", "down", "enter")
        assert [each.day for each in plan(book).sowings] == days[2:]

    play(LogbookApp(book), story, size)


def test_what_is_to_come_is_written_for_a_calendar(book: Book, tmp_path: Path) -> None:
    """With the deliveries, to the file that is typed; over a file that isn't ours nothing is written."""
    stand_at(book, "2026-04-01 08:00")
    order(book, OrderDraft("Bistro", "radish 500g fri 10 apr 06:00"))
    other, mine = tmp_path / "other.ics", tmp_path / "room.ics"
    other.write_text("BEGIN:VCALENDAR", encoding="utf-8")

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "S", "N", "ctrl+u", *str(other), *["tab"] * 2, "ctrl+u", "y", "f9")
        assert "There is already a file" in " ".join(screen_text(pilot).split())
        await press(pilot, "up", "up", "ctrl+u", *str(mine), "f9")
        assert "1 event written to" in " ".join(screen_text(pilot).split())

    play(LogbookApp(book), story)
    assert "Bistro" in mine.read_text(encoding="utf-8")
    assert other.read_text(encoding="utf-8") == "BEGIN:VCALENDAR"


def test_what_can_be_promised_is_written_for_whom_one_says(book: Book) -> None:
    stand_at(book, "2026-04-01 08:00")

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "S", "J")
        await press(pilot, *"field test 400g fri", "enter")
        assert "No, but from" in " ".join(screen_text(pilot).split())
        await press(pilot, "J", *"field test 400g fri 17 apr", "enter")
        assert "Yes, if 2 trays are soaked by" in " ".join(screen_text(pilot).split())
        assert list_orders(book).orders == ()
        await press(pilot, *"Bistro", "enter")
        assert [each.customer for each in list_orders(book).orders] == ["Bistro"]
        with book.reading() as reading:
            assert len(reading.live) == 2

    play(LogbookApp(book), story)
