"""Adding, changing, retiring places, and the order in which one walks past them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from logbook.actions.book import Book
from logbook.actions.room.places import (
    PlaceDraft,
    add_place,
    change_place,
    list_places,
    retire_place,
    walk_earlier,
)
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.moving import move
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.round import the_round
from logbook.actions.trays.weighing import weigh
from logbook.text import Refused
from tests.actions.days import counts, sow_at, stand_at, views


def paths(book: Book) -> list[str]:
    return [each.place.path for each in list_places(book) if each.place.kind == "shelf"]


def test_a_rack_and_a_shelf_are_added_last(book: Book) -> None:
    add_place(book, PlaceDraft("Window", "rack"))
    place = add_place(
        book, PlaceDraft("Sill/left", under="Window", slots=6, lamp_on=360, lamp_off=1320)
    )
    assert (place.path, place.slots, place.hours_words) == ("Window/Sill-left", 6, "lit 06–22")
    assert paths(book)[-1] == "Window/Sill-left"


def test_a_place_is_changed_and_its_trays_stay(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2, place="Rack 1/Shelf 1")
    change_place(book, "Rack 1/Shelf 1", PlaceDraft("Top", slots=2))
    views_now = list_places(book)
    (top,) = [each for each in views_now if each.place.path == "Rack 1/Top"]
    assert (top.used, top.free, top.place.lit) == (2, 0, False)


def test_a_lamp_on_at_24_00_is_on_from_00_00(book: Book) -> None:
    draft = PlaceDraft("Sill", under="Rack 1", lamp_on=1440, lamp_off=360)
    assert add_place(book, draft).lamp_on == 0


def test_the_round_follows_the_walking_order(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 1, place="Rack 1/Shelf 1")
    sow_at(book, "2026-04-01 08:00", 1, place="Rack 2/Shelf 3")
    stand_at(book, "2026-04-02 08:00")

    def walked() -> list[str]:
        return list(dict.fromkeys(line.place for line in the_round(book).due))

    assert walked() == ["Rack 1/Shelf 1", "Rack 2/Shelf 3"]
    walk_earlier(book, "Rack 2")
    assert walked() == ["Rack 2/Shelf 3", "Rack 1/Shelf 1"]
    walk_earlier(book, "Rack 2", later=True)
    assert walked() == ["Rack 1/Shelf 1", "Rack 2/Shelf 3"]


def test_a_retired_place_is_no_longer_filled_and_stays_in_the_record(book: Book) -> None:
    retire_place(book, "Rack 1")
    assert {path.split("/")[0] for path in paths(book)} == {"Rack 2"}
    assert sow_at(book, "2026-04-01 08:00", 1).plan.places == ("Rack 2/Shelf 1",)
    assert any(each.place.retired for each in list_places(book, retired=True))


BAD: dict[str, tuple[Callable[[Book], object], str]] = {
    "no slots": (lambda book: add_place(book, PlaceDraft("x", under="Rack 1", slots=0)), "1 to 100"),
    "a name twice": (lambda book: add_place(book, PlaceDraft("shelf 1", under="Rack 1")), "already"),
    "no name": (lambda book: add_place(book, PlaceDraft(" ", under="Rack 1")), "empty"),
    "under a shelf": (lambda book: add_place(book, PlaceDraft("x", under="Rack 1/Shelf 1")), "is a shelf"),
    "under nothing": (lambda book: add_place(book, PlaceDraft("x", under="Attic")), "no place"),
    "half a lamp": (lambda book: add_place(book, PlaceDraft("x", lamp_on=360)), "both"),
    "a lamp that never burns": (lambda book: add_place(book, PlaceDraft("x", lamp_on=360, lamp_off=360)), "Both times are"),
    "a lamp from midnight to midnight": (lambda book: add_place(book, PlaceDraft("x", lamp_on=1440, lamp_off=0)), "Both times are"),
    "too few slots": (lambda book: change_place(book, "Rack 1/Shelf 1", PlaceDraft("Shelf 1", slots=1)), "holds 2 trays"),
    "still in use": (lambda book: retire_place(book, "Rack 1"), "still holds 101 102"),
    "first already": (lambda book: walk_earlier(book, "Rack 1"), "already the first"),
    "last already": (lambda book: walk_earlier(book, "Rack 2", later=True), "already the last"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_is_refused_and_nothing_is_written(book: Book, name: str) -> None:
    act, words = BAD[name]
    sow_at(book, "2026-04-01 08:00", 2, place="Rack 1/Shelf 1")
    before, rows = views(book), counts(book)
    with pytest.raises(Refused, match=words):
        act(book)
    assert counts(book) == rows
    assert views(book) == before


@pytest.mark.parametrize(("slot", "fewest"), [(3, 3), (1, 2)])
def test_a_shelf_keeps_the_highest_slot_that_is_held_and_one_for_each_tray(
    book: Book, slot: int, fewest: int
) -> None:
    # given two trays, one of them in that slot and the other before it or behind
    sow_at(book, "2026-04-01 08:00", 2, place="Rack 1/Shelf 1")
    move(book, [101], "Rack 2/Shelf 1")
    move(book, [101], f"Rack 1/Shelf 1/{slot}")
    with pytest.raises(Refused, match="move them before it has fewer slots"):
        change_place(book, "Rack 1/Shelf 1", PlaceDraft("Shelf 1", slots=fewest - 1))
    assert change_place(book, "Rack 1/Shelf 1", PlaceDraft("Shelf 1", slots=fewest)).slots == fewest


def test_trays_that_have_no_slot_of_their_own_take_one_each(book: Book) -> None:
    # given two trays whose place was put right after a cut, so that nobody knows their slots
    sowing = sow_at(book, "2026-04-01 08:00", 2, place="Rack 1/Shelf 1")
    stand_at(book, "2026-04-08 20:00")
    weigh(book, sowing.plan.numbers, 300, part=True)
    (entry,) = (line.id for line in batch_page(book, "1").past if line.kind == "sow")
    replace_entry(book, entry, "another shelf", Changes(place="Rack 2/Shelf 1"))
    with pytest.raises(Refused, match="holds 2 trays"):
        change_place(book, "Rack 2/Shelf 1", PlaceDraft("Shelf 1", slots=1))
    assert change_place(book, "Rack 2/Shelf 1", PlaceDraft("Shelf 1", slots=2)).slots == 2
