"""The screen of holds: what is put on hold leaves the round, and comes back with its release."""

from __future__ import annotations

from datetime import timedelta

import pytest
from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.recall.holding import list_holds
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from tests.actions.packs.gone_out import despatch, lot_ids
from tests.ui.forms_room import play
from tests.ui.steps import press, screen_text, sees


def test_a_bag_is_put_on_hold_and_released(book: Book) -> None:
    sow(book, SowDraft("radish", trays=2, lot="RA 12"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "R")
        await sees(pilot, "Nothing is on hold")
        await press(pilot, "plus", "h", *"ra12", "enter", *"mould", "enter")
        await sees(pilot, "seed lot RA 12", "mould   trays 101 102", "Local rules")
        await press(pilot, "r")
        await sees(pilot, "On hold: 101 102 (seed lot RA 12: mould).")
        await press(pilot, "w", *"101 200")
        assert "101 is on hold (seed lot RA 12: mould)." in screen_text(pilot)
        await press(pilot, *["escape"] * 2, "R", "enter", *"clean", "enter")
        await sees(pilot, "released: seed lot RA 12", "Nothing is on hold")

    play(LogbookApp(book), story)
    assert list_holds(book).holds == ()


def test_a_practice_recall_from_a_bag_to_its_customers(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    sow(book, SowDraft("radish", trays=2, lot="RA 12", at=book.now() - timedelta(days=8)))
    weigh(book, (101,), 400)
    (code,) = lot_ids(book)
    for name in ("Bistro", "Cafe", "Deli"):
        despatch(book, name, {code: 100})

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "R", "plus", "r", *"zz9", "enter")
        await sees(pilot, 'Nothing in the book is called "zz9"')
        await press(pilot, "ctrl+u", *"ra12", "enter")
        await sees(pilot, "Call 3 customers: 3 packs, 300 g", "Cafe: no contact", code)
        await sees(pilot, "102, radish", "not on hold", "If people may be ill")
        await press(pilot, "Q", *"practice", "enter")
        await sees(pilot, "102, radish, Rack 1/Shelf 1, on hold")
        book.clock.at += timedelta(seconds=30)  # type: ignore[attr-defined]
        await press(pilot, "enter", "p", *"by phone", "enter")
        await sees(pilot, "practice from seed lot RA 12: 3 customers, 1 lot, 300 g in 30 s")
        await press(pilot, "escape")
        await sees(pilot, "Recalls, and practice", "in 30 s")

    play(LogbookApp(book), story)


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (["1", "0", "2", "enter"], "tray 102"),
        (["1", "0", "2", "enter", "b"], "batch"),
        (["L"], "seed lot RA 12"),
        (["g", "C"], "pack lot"),
        (["r"], "tray 102"),
    ],
)
def test_a_hold_is_begun_where_one_sees_it(book: Book, keys: list[str], said: str) -> None:
    sow(book, SowDraft("radish", trays=2, lot="RA 12", at=book.now() - timedelta(days=8)))
    weigh(book, (101,), 400)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, *keys, "Q", *"mould", "enter")
        await sees(pilot, "on hold")

    play(LogbookApp(book), story)
    (line,) = list_holds(book).holds
    assert said in line.hold.name
    assert line.hold.why == "mould"
