"""Half trays take half a slot; trays that are stacked under weight take one slot together."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.crops.templates import put_template, show_template
from logbook.actions.room.places import (
    PlaceDraft,
    RoomDraft,
    change_place,
    change_room,
    list_places,
)
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import move
from logbook.actions.trays.racks import racks
from logbook.actions.trays.sowing import SowDraft, preview, sow
from logbook.text import Refused
from logbook.ui.rack_drawing import draw_racks
from tests.actions.room_book import OTHER, SHELF, room_book


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Two shelves of six slots; radish is in the dark under weight first."""
    return room_book(tmp_path)


def _halve(book: Book) -> None:
    """Common practice, no source: a half tray is 10 x 10 in, a slot takes one of 10 x 20 in."""
    radish = show_template(book, "radish").template
    put_template(book, replace(radish, tray=(254.0, 254.0)), "half trays")


def _used(book: Book) -> dict[str, tuple[int, int]]:
    """Slots used and free of the shelves; the racks must say the same."""
    views = [view for view in list_places(book) if view.place.kind == "shelf"]
    drawn = {shelf.place.path: shelf for rack in racks(book).racks for shelf in rack.shelves}
    assert all(drawn[view.place.path].slots_used == view.used for view in views)
    return {view.place.path: (view.used, view.free) for view in views}


def _slots(book: Book) -> dict[int, int | None]:
    return {
        tray.number: tray.slot
        for rack in racks(book).racks
        for shelf in rack.shelves
        for tray in shelf.trays
    }


def test_half_trays_stand_two_in_a_slot(book: Book) -> None:
    # given
    _halve(book)
    assert preview(book, SowDraft("radish", trays=12, place=SHELF)).notices == ()
    # when
    sow(book, SowDraft("radish", trays=5, place=SHELF))
    # then
    assert _slots(book) == {101: 1, 102: 1, 103: 2, 104: 2, 105: 3}
    assert _used(book) == {SHELF: (3, 3), OTHER: (0, 6)}
    # a whole tray finds no room beside the half one
    sow(book, SowDraft("kale", trays=3, place=SHELF))
    assert [_slots(book)[number] for number in (106, 107, 108)] == [4, 5, 6]
    # the half slot is still there for a half tray
    sow(book, SowDraft("radish", trays=1, place=SHELF))
    assert _slots(book)[109] == 3
    with pytest.raises(Refused, match="These trays can't share a slot"):
        move(book, [109, 106], f"{SHELF}/3")
    text = draw_racks(racks(book), 80, 24).text
    assert all(str(number) in text for number in range(101, 110))
    assert "6 of 6" in text


def test_half_trays_move_together_into_one_slot(book: Book) -> None:
    _halve(book)
    sow(book, SowDraft("radish", trays=3, place=SHELF))
    move(book, [101, 102], f"{OTHER}/4")
    assert _slots(book) == {101: 4, 102: 4, 103: 2}
    with pytest.raises(Refused, match=f"Slot 4 of {OTHER} is not free. Free: 1, 2, 3, 5 and 6."):
        move(book, [103], f"{OTHER}/4")
    with pytest.raises(Refused, match="takes 2 trays like these"):
        move(book, [101, 102, 103], f"{OTHER}/1")


def test_trays_under_weight_stand_on_one_another_until_the_weight_comes_off(book: Book) -> None:
    # given
    change_room(book, RoomDraft(stack_height=3))
    # when
    sow(book, SowDraft("radish", trays=7, place=SHELF))
    # then
    assert list(_slots(book).values()) == [1, 1, 1, 2, 2, 2, 3]
    assert _used(book) == {SHELF: (3, 3), OTHER: (0, 6)}
    change_place(book, SHELF, PlaceDraft("Shelf 1", slots=3, lamp_on=360, lamp_off=1320))
    assert _used(book)[SHELF] == (3, 0)
    # when: the first stack is taken apart
    (notice,) = did(book, "weight_off", [101, 102, 103]).notices
    # then
    assert notice.startswith(f"Slot 1 of {SHELF} has no room for all of its trays now: 101–103.")
    assert _used(book)[SHELF] == (5, 0)
    # when
    move(book, [102, 103], OTHER)
    # then
    assert _slots(book) == {101: 1, 102: 1, 103: 2, 104: 2, 105: 2, 106: 2, 107: 3}
    assert _used(book) == {SHELF: (3, 0), OTHER: (2, 4)}


@pytest.mark.parametrize("height", [0, 11, -1])
def test_a_stack_height_that_cannot_be_is_refused(book: Book, height: int) -> None:
    with pytest.raises(Refused, match="1 to 10"):
        change_room(book, RoomDraft(stack_height=height))
    assert change_room(book, RoomDraft(stack_height=10)).stack == 10
