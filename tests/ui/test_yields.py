"""From a number of the yields down to the trays that it is of."""

from pathlib import Path

from textual.pilot import Pilot

from logbook.actions.trays.moving import move
from logbook.actions.trays.weighing import weigh
from logbook.ui.app import LogbookApp
from tests.actions.room_book import OTHER, lit_batch, moment, room_book, stand_at
from tests.ui.forms_room import play
from tests.ui.steps import press, screen_text, sees


def test_enter_goes_down_to_the_trays_of_a_shelf(tmp_path: Path) -> None:
    """Of a batch on two shelves the trays of the shelf alone that was opened are shown."""
    book = room_book(tmp_path)
    lit_batch(book, 3)
    move(book, [103], OTHER)
    stand_at(book, moment(9))
    for tray, grams in ((101, 210), (102, 220), (103, 290)):
        weigh(book, [tray], grams)

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "G", "P", "s")
        await sees(pilot, "radish: Rack 1/Shelf 1")
        await press(pilot, "enter")
        await sees(pilot, "radish 1")
        await press(pilot, "enter")
        await sees(pilot, "batch 1")
        assert "101 " in screen_text(pilot)
        assert "102 " in screen_text(pilot)
        assert "103 " not in screen_text(pilot)
        await press(pilot, "enter")
        await sees(pilot, "cut 210 g, 5.60 g per g of seed")

    play(LogbookApp(book), story)
