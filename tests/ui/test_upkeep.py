"""Cleaning and checks on the round: one key, a value where there is one, a reason to put it off; weeks signed."""

from __future__ import annotations

from textual.pilot import Pilot

from logbook.actions.book import Book
from logbook.actions.records.reviewing import review_weeks
from logbook.actions.room.cleaning import UseDraft, list_checks, list_uses, use_solution
from logbook.actions.room.upkeep import DutyDraft, set_duty
from logbook.ui.app import LogbookApp
from tests.ui.forms_room import play
from tests.ui.steps import press, sees


def test_a_cleaning_is_done_with_one_key_and_a_check_says_what_it_showed(book: Book) -> None:
    set_duty(book, DutyDraft("racks"))
    set_duty(book, DutyDraft("cold store"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "r", "enter")
        await sees(pilot, "cleaned: racks, wash, rinse, sanitise.")
        await press(pilot, "u")
        await sees(pilot, "undone: cleaning", "clean racks")
        await press(pilot, "up", "s", *"nohotwater", "enter")
        await sees(pilot, "skipped: clean racks")
        await press(pilot, "enter", *"warm", "enter")
        await sees(pilot, "is not a number")
        await press(pilot, *["backspace"] * 4, *"7.2C", "enter")
        await sees(pilot, "checked: cold store, 7.2 °C", "above 5 °C (41 °F)")

    play(LogbookApp(book), story)
    assert list_uses(book) == []
    assert [each.words for each in list_checks(book)] == ["cold store, 7.2 °C"]


def test_a_week_is_read_and_signed_on_the_screen_of_records(book: Book) -> None:
    use_solution(book, UseDraft("floor", "sweep"))

    async def story(pilot: Pilot[None]) -> None:
        await press(pilot, "g", "i", "space")
        await sees(pilot, "cleaned: floor, sweep")
        await press(pilot, "enter", "y")
        await sees(pilot, "reviewed: the week from")

    play(LogbookApp(book), story)
    review = review_weeks(book).weeks[0].review
    assert review is not None
    assert review.by == book.by
