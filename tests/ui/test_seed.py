"""The screen of seed: what is written of a bag is put right."""

from __future__ import annotations

from datetime import date

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.seed.seed_store import seed_store
from logbook.actions.seed.writing import buy_seed
from logbook.growing.seed.bags import Bag
from logbook.ui.app import LogbookApp
from tests.ui.forms_room import play
from tests.ui.steps import press, sees


def test_a_bag_is_put_right(book: Book) -> None:
    """Emptied lines are not known any more; what isn't touched stays to the tenth of a gram."""
    buy_seed(book, Bag("RA 12", "radish", 1234.5, date(2026, 4, 1), germination_percent=92))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "L", "e")
        await sees(pilot, "seed lot RA 12")
        await press(pilot, "tab", *"Hill farm", *["tab"] * 3, "ctrl+u", "f9")
        await sees(pilot, "Please give a reason")
        await press(pilot, *"misread", "f9")
        await sees(pilot, "replaces entry")

    play(LogbookApp(book), story)
    (lot,) = seed_store(book).lots
    assert lot.newest is not None
    assert (lot.newest.grams, lot.newest.supplier) == (1234.5, "Hill farm")
    assert lot.newest.germination_percent is None


def test_the_first_bag_is_asked_for_at_once(book: Book) -> None:
    """Where there is no lot to count or weigh, nothing is asked before the bag."""

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "L", "plus", *"radish", "enter", *"RA 1", "enter", *"1kg", "f9")
        await sees(pilot, "1000 g of radish, seed lot RA 1")

    play(LogbookApp(book), story)


def test_which_of_several_bags_is_put_right_is_asked(book: Book) -> None:
    for day, grams in ((1, 1000), (3, 500)):
        buy_seed(book, Bag("RA 12", "radish", grams, date(2026, 4, day)))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "L", "e")
        await sees(pilot, "Which bag of RA 12?", "500 g, bought Fri 3 Apr", "bought Wed 1 Apr")
        await press(pilot, "2", "ctrl+u", *"800g", *["tab"] * 9, *"misread", "f9")
        await sees(pilot, "replaces entry")

    play(LogbookApp(book), story)
    (lot,) = seed_store(book).lots
    assert [bag.grams for bag in lot.bags] == [800, 500]
