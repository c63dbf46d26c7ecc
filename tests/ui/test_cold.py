"""The cold store on the screens: a tick takes from lots, waste and returns go out, a lot is renamed."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.packs.joining import find_lot
from logbook.actions.trays.weighing import weigh
from logbook.ui.app import LogbookApp
from tests.actions.packs.test_lots import ripe_room
from tests.ui.forms_room import play
from tests.ui.steps import press, sees


def test_what_is_packed_wasted_and_returned_leaves_the_cold_store(tmp_path: Path) -> None:
    book = ripe_room(tmp_path)
    weigh(book, (101,), 300.0)
    order(book, OrderDraft("Bistro", "radish 2 x 50g tomorrow"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "E", "enter")
        await sees(pilot, "radish 2 × 50 g (lot 260410-RAD-1)", "packed")
        await press(pilot, "escape", "g", "C")
        await sees(pilot, "cold store", "260410-RAD-1  radish  200 g")
        await press(pilot, "enter", "o", *"30", "enter")
        await sees(pilot, "30 g of lot 260410-RAD-1: own use; 170 g left")
        await press(pilot, "enter", "r", "enter", *"500", "f9")
        await sees(pilot, "Bistro got 100 g of lot 260410-RAD-1; no more can come")
        await press(pilot, *["backspace"] * 3, *"40", "f9")
        await sees(pilot, "Bistro returned 40 g of lot 260410-RAD-1: waste")
        await press(pilot, "e", *"R10", "f9")
        await sees(pilot, "lot R10: before 260410-RAD-1", "R10  radish  170 g")
        await press(pilot, "u", "enter")
        await sees(pilot, "260410-RAD-1  radish  170 g")

    play(LogbookApp(book), story)
    with book.reading() as reading:
        lot = find_lot(reading, "260410-RAD-1")
    assert (lot.grams_left, lot.grams_own, lot.grams_waste) == (170, 30, 40)


def test_live_trays_are_ticked_by_their_numbers(tmp_path: Path) -> None:
    book = ripe_room(tmp_path)
    order(book, OrderDraft("Shop", "2 trays radish tomorrow"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "E", "enter")
        await sees(pilot, "Which trays go to Shop?", "101 102")
        await press(pilot, *"103-105", "enter")
        await sees(pilot, "Tray 105 is kale, which isn't what was ordered.")
        await press(pilot, "backspace", "4", "enter")
        await sees(pilot, "radish 2 live trays (lot 260410-RAD-1: 103 104)")

    play(LogbookApp(book), story)
    with book.reading() as reading:
        assert {tray.number for tray in reading.live} == {101, 102, 105, 106}
