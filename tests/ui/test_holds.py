"""The screen of holds: what is put on hold leaves the round, and comes back with its release."""

from __future__ import annotations

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.recall.holding import list_holds
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.ui.app import LogbookApp
from tests.ui.forms_room import play
from tests.ui.steps import press, screen_text, sees


def test_a_bag_is_put_on_hold_and_released(book: Book) -> None:
    sow(book, SowDraft("radish", trays=2, lot="RA 12"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "R")
        await sees(pilot, "Nothing is on hold")
        await press(pilot, "plus", *"ra12", "enter", *"mould", "enter")
        await sees(pilot, "seed lot RA 12", "mould   trays 101 102", "Local rules")
        await press(pilot, "r")
        await sees(pilot, "On hold: 101 102 (seed lot RA 12: mould).")
        await press(pilot, "w", *"101 200")
        assert "101 is on hold (seed lot RA 12: mould)." in screen_text(pilot)
        await press(pilot, *["escape"] * 2, "R", "enter", *"clean", "enter")
        await sees(pilot, "released: seed lot RA 12", "Nothing is on hold")

    play(LogbookApp(book), story)
    assert list_holds(book).holds == ()
