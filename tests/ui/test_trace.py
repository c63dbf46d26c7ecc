"""The trace on the screens: from a tray, a bag or a typed code, to its customers and its life."""

from __future__ import annotations

from datetime import timedelta

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.ui.app import LogbookApp
from tests.actions.packs.gone_out import despatch, lot_ids
from tests.ui.forms_room import play
from tests.ui.steps import press, screen_text, sees


def test_a_code_is_typed_and_its_trace_turned_into_its_life(book: Book) -> None:
    draft = SowDraft("field test", 1, lot="RA 1", at=book.now() - timedelta(days=10))
    (number,) = sow(book, draft).plan.numbers
    weigh(book, [number], 300)
    (code,) = lot_ids(book)
    despatch(book, "Bistro", {code: 200})

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "F")
        await sees(pilot, "Trace what?")
        await press(pilot, *code, "enter")
        await sees(pilot, "200 g went out, 100 g in stock")
        await sees(pilot, "Bistro, Tue 14 Apr: 200 g")
        await press(pilot, "b")
        await sees(pilot, "same seed: packs at Bistro")
        await press(pilot, "b")
        await press(pilot, "F")
        await sees(pilot, "Trace what?")
        await press(pilot, *"zz", "enter")
        await sees(pilot, 'Nothing in the book is called "zz"')

    play(LogbookApp(book), story)


def test_esc_leaves_the_question_and_then_the_screen(book: Book) -> None:
    sow(book, SowDraft("field test", 1, lot="RA 1"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "F")
        await sees(pilot, "Trace what?")
        await press(pilot, "escape")
        assert "Trace what?" not in screen_text(pilot)
        await press(pilot, "F")
        await sees(pilot, "Trace what?")
        await press(pilot, "escape", "escape")
        assert "Seed lots in use" not in screen_text(pilot)

    play(LogbookApp(book), story)
