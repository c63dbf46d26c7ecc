"""A shelf whose lamps are off warns for trays that need light."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template, show_template
from logbook.actions.room.lamps import hang_lamps
from logbook.actions.room.places import PlaceDraft, change_place
from logbook.actions.trays.moving import move
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import round_view, the_round
from logbook.actions.trays.sowing import SowDraft, preview
from logbook.actions.trays.striking import undo
from logbook.cli.trays.brief import brief_words
from logbook.cli.trays.round import round_words
from logbook.growing.room.power import LampSet
from logbook.ways import in_shell
from tests.actions.room_book import OTHER, SHELF, lit_batch, room_book, with_lamps


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return room_book(tmp_path)


def _dark(book: Book) -> list[str]:
    said = [each.words for each in the_round(book).in_the_dark]
    assert [each.words for each in round_view(book).round.in_the_dark] == said
    shelves = [shelf for rack in racks(book).racks for shelf in rack.shelves]
    assert [each.in_the_dark.words for each in shelves if each.in_the_dark] == said
    return said


def test_lamps_taken_off_over_trays_in_the_light_are_said_until_the_trays_are_moved(
    book: Book,
) -> None:
    # given
    with_lamps(book)
    lit_batch(book)
    assert _dark(book) == []
    # when
    (notice,) = hang_lamps(book, SHELF, LampSet(0)).notices
    # then
    words = f"In the dark, as {SHELF} has no lamps: 101 102"
    assert in_shell(notice) == f"{words}. `logbook move TRAYS PLACE` moves trays to a lit shelf."
    assert _dark(book) == [words]
    assert round_view(book).heads == {SHELF: ("no lamps",), OTHER: ("lit 06–22",)}
    assert f"{words}." in list(round_words(the_round(book), book))
    assert next(brief_words(the_round(book), book)).endswith("; in the dark: 101 102.")
    # when
    move(book, [101], OTHER)
    assert _dark(book) == [f"In the dark, as {SHELF} has no lamps: 102"]
    (back,) = move(book, [101], SHELF).notices
    assert back.startswith(f"In the dark, as {SHELF} has no lamps: 101.")
    undo(book)
    move(book, [102], OTHER)
    assert _dark(book) == []


def test_a_shelf_without_lamp_hours_warns_where_others_have_some(book: Book) -> None:
    lit_batch(book)
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=6))
    assert _dark(book) == [f"In the dark, as {SHELF} has no lamp hours: 101 102"]
    # a room with no lamps at all is lit by its windows
    change_place(book, OTHER, PlaceDraft("Shelf 2", slots=6))
    assert _dark(book) == []


def test_a_crop_that_begins_in_the_light_says_so_before_it_is_sown(book: Book) -> None:
    radish = show_template(book, "radish").template
    put_template(book, replace(radish, stages=radish.stages[-1:]), "no dark days")
    change_place(book, OTHER, PlaceDraft("Shelf 2", slots=6))
    dark = SowDraft("radish", trays=1, place=OTHER)
    assert preview(book, dark).notices[0].startswith(f"In the dark, as {OTHER} has no lamp hours")
    assert preview(book, replace(dark, place=SHELF)).notices == ()
