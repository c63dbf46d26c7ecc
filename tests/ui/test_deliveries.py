"""The screen of deliveries: packs are ticked with one key, an order is entered as it was texted."""

from __future__ import annotations

import asyncio
import threading
from pathlib import Path

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.orders.customers import list_customers
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.listing import list_orders
from logbook.actions.orders.mixes import list_mixes
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.ui.app import LogbookApp
from logbook.ui.frame import Frame
from tests.ui.forms_room import play
from tests.ui.steps import press, screen_text, sees, until


def test_a_chefs_text_is_entered_ticked_and_unticked(book: Book) -> None:
    """Thirty keys from the text to the tick; undo takes the tick back."""
    order(book, OrderDraft("Corner shop", "radish 200g sat"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "E", "plus")
        await press(pilot, *["ctrl+u"], *"Bistro: radish 2x50g fri", "enter")
        await sees(pilot, "Bistro: radish 2 × 50 g, Fri 17 Apr 07:00")
        await sees(pilot, "to pack  radish 2 × 50 g")
        await press(pilot, "up", "enter")
        await sees(pilot, "packed   radish 2 × 50 g")
        await press(pilot, "enter")
        await sees(pilot, "to pack  radish 2 × 50 g")
        await press(pilot, "enter", "u")
        await sees(pilot, "to pack  radish 2 × 50 g")

    play(LogbookApp(book), story)
    assert [each.customer for each in list_orders(book).orders] == ["Bistro", "Corner shop"]
    assert not any(each.done for each in list_deliveries(book).deliveries)


def test_an_order_without_a_customer_is_asked_about(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "E", "plus", *"radish 500g fri", "enter")
        await sees(pilot, "Who is it for?")
        await press(pilot, "escape")

    play(LogbookApp(book), story)
    assert list_orders(book).orders == ()


def test_customers_and_their_orders_are_changed_paused_and_ended(book: Book) -> None:
    order(book, OrderDraft("Bistro", "radish 200g every sat", "3.50"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "K")
        await sees(pilot, "Bistro  kitchen", "radish 200 g, every Sat", "3.50")
        await press(pilot, "e", *["tab"] * 4, *"06:30", "f9")
        await sees(pilot, "Bistro: kitchen, at 06:30")
        await press(pilot, "down", "e", "ctrl+u", *"radish 3 x 100g every sat", "f9")
        await sees(pilot, "radish 3 × 100 g, every Sat")
        await press(pilot, "s", *"24 Apr to 2 May", "enter")
        await sees(pilot, "nothing from Fri 24 Apr to Sat 2 May")
        await press(pilot, "x", "enter", "up", "x", "y")
        await sees(pilot, "No customers yet")

    play(LogbookApp(book), story)
    assert list_orders(book).orders == ()


def test_a_customer_without_an_order_and_a_mix_are_added_changed_and_removed(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "K", "plus", "c", *"Bistro", *["tab"] * 3, *"tue,fri", "f9")
        await sees(pilot, "Bistro  kitchen, Tue, Fri")
        await press(pilot, "plus", "m", *"two", "enter", *"2 radish + 1 pea", "f9")
        await sees(pilot, "two: 67 % radish, 33 % pea")
        await press(pilot, "end", "e")
        await sees(pilot, "2 radish + 1 pea")
        await press(pilot, "ctrl+u", *"1 radish + 1 pea", "f9")
        await sees(pilot, "two: 50 % radish, 50 % pea")
        await press(pilot, "x", "y")
        await sees(pilot, "two: no longer mixed")

    play(LogbookApp(book), story)
    assert [each.name for each in list_customers(book)] == ["Bistro"]
    assert list_mixes(book).mixes == ()


def test_a_slow_look_never_hides_what_was_written_since(book: Book) -> None:
    """A look begun before a writing and done after the next look is not drawn."""
    order(book, OrderDraft("Bistro", "radish 200g sat"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "K")
        await sees(pilot, "Bistro  kitchen")
        screen = pilot.app.screen
        assert isinstance(screen, Frame)
        look, go_on, begun = screen.find, threading.Event(), threading.Event()

        def slowly() -> object:
            view = look()
            begun.set()
            go_on.wait(10)
            return view

        screen.find = slowly  # type: ignore[method-assign]
        slow = asyncio.create_task(screen.reload())
        await until(pilot, begun.is_set)
        screen.find = look  # type: ignore[method-assign]
        order(book, OrderDraft("Corner shop", "radish 100g sat"))
        await screen.reload()
        go_on.set()
        await slow
        assert "Corner shop  kitchen" in screen_text(pilot)

    play(LogbookApp(book), story)


def test_a_delivery_note_is_written_of_what_is_packed(book: Book, tmp_path: Path) -> None:
    order(book, OrderDraft("Bistro", "radish 2x50g fri"))
    page = tmp_path / "note.html"

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "E", "I", "n", *["tab"] * 2, "ctrl+u", *str(page), "enter")
        await sees(pilot, "Nothing is packed for Bistro")
        await press(pilot, "escape", "enter")
        await sees(pilot, "packed   radish 2 × 50 g")
        await press(pilot, "I", "n", *["tab"] * 2, "ctrl+u", *str(page), "enter")
        await sees(pilot, "The note was written to")

    play(LogbookApp(book), story)
    assert "2 × 50 g" in page.read_text(encoding="utf-8")


def test_labels_are_asked_for_on_deliveries_too(book: Book) -> None:
    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "E", "I", "l")
        await sees(pilot, "Labels for packs")

    play(LogbookApp(book), story)
