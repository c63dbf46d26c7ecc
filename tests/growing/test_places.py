"""Places: finding one, and where trays go."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.room.places import (
    Held,
    Place,
    Places,
    free_slots,
    slots_used,
    spread_over,
)
from logbook.text import Refused

ROOM = Place(1, "room", "Cellar", "Cellar", (1, 1))
RACKS = [
    Place(10 * rack, "rack", f"Rack {rack}", f"Rack {rack}", (1, 1, rack, 10 * rack), 1)
    for rack in (1, 2)
]
SHELVES = [
    Place(10 * rack + shelf, "shelf", f"Shelf {shelf}", f"Rack {rack}/Shelf {shelf}",
          (1, 1, rack, 10 * rack, shelf, 10 * rack + shelf), 10 * rack, 4)
    for rack in (1, 2)
    for shelf in (1, 2)
]  # fmt: skip
PLACES = Places(sorted((ROOM, *RACKS, *SHELVES), key=lambda place: place.walk))


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("Rack 1/Shelf 2", "Rack 1/Shelf 2"),
        ("rack 1 / shelf 2", "Rack 1/Shelf 2"),
        ("RACK 2", "Rack 2"),
        ("cellar", "Cellar"),
        ("/Rack 1/", "Rack 1"),
    ],
)
def test_a_place_is_found(text: str, path: str) -> None:
    assert PLACES.find(text).path == path


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Shelf 2", "matches 2 places; type which one: Rack 1/Shelf 2 or Rack 2/Shelf 2"),
        ("Rack 1/Shelf 9", 'Did you mean "Rack 1/Shelf'),
        ("", "no place"),
        ("[/]", "no place"),
    ],
)
def test_a_place_that_is_none_is_refused(text: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        PLACES.find(text)


def test_shelves_come_in_walking_order() -> None:
    assert [shelf.id for shelf in PLACES.under(ROOM)] == [11, 12, 21, 22]
    assert [shelf.id for shelf in PLACES.under(RACKS[1])] == [21, 22]


def held(*slots: int | None, shared_by: int = 1) -> list[Held]:
    """Trays in these slots; None for one that stands in none."""
    return [Held(slot, shared_by) for slot in slots]


def test_trays_without_a_slot_take_one_each() -> None:
    shelf = SHELVES[0]
    assert free_slots(shelf, {11: held(1, None)}) == [2, 3]
    assert free_slots(shelf, {11: held(1, 2, None, None, None)}) == []
    assert free_slots(shelf, {11: held(*[None] * 9)}) == []


def test_trays_that_share_slots_fill_those_begun_and_leave_others_alone() -> None:
    shelf, halves = SHELVES[0], held(2, None, shared_by=2)
    # slot 1 is whole, slot 2 half full, slot 4 goes to the half tray that stands in none
    assert free_slots(shelf, {11: [*held(1), *halves]}, 2) == [2, 3, 3]
    assert free_slots(shelf, {11: [*held(1), *halves]}) == [3]
    assert slots_used([*held(1), *halves]) == 3
    # three that were a stack are in slot 1 though it takes one: two more slots are gone
    assert free_slots(shelf, {11: held(1, 1, 1)}) == [2]
    assert slots_used(held(1, 1, 1)) == 3


def test_a_full_shelf_is_said_and_the_rest_goes_on() -> None:
    spread = spread_over(6, [SHELVES[0]], SHELVES[1:], {11: held(1), 12: held(2)})
    assert spread.spots == ((11, 2), (11, 3), (11, 4), (12, 1), (12, 3), (12, 4))
    assert spread.notices == (
        "Rack 1/Shelf 1 has room for only 3 of the 6 trays.",
        "3 of them will go on Rack 1/Shelf 2.",
    )


def test_a_full_room_leaves_trays_without_a_slot_and_says_so() -> None:
    spread = spread_over(3, [], [SHELVES[0]], {11: held(1, 2, 3)})
    assert spread.spots == ((11, 4), None, None)
    assert spread.notices == (
        "Every shelf is full: 2 trays have no slot yet; move them when there is room.",
    )


@given(
    st.integers(1, 30),
    st.dictionaries(
        st.sampled_from([11, 12, 21, 22]), st.lists(st.none() | st.integers(1, 4), max_size=6)
    ),
    st.integers(0, 4),
)
def test_no_slot_is_given_twice_and_none_that_is_taken(
    count: int, taken: dict[int, list[int | None]], wanted: int
) -> None:
    spread = spread_over(
        count, SHELVES[:wanted], SHELVES[wanted:], {at: held(*each) for at, each in taken.items()}
    )
    given_out = [spot for spot in spread.spots if spot is not None]
    assert len(spread.spots) == count
    assert len(set(given_out)) == len(given_out)
    assert not [spot for spot in given_out if spot[1] in taken.get(spot[0], ())]
    for shelf in SHELVES:
        holds = len(set(taken.get(shelf.id, ())) - {None}) + taken.get(shelf.id, []).count(None)
        got = sum(spot[0] == shelf.id for spot in given_out)
        assert got <= max(0, shelf.slots - holds)


def test_places_are_found_by_their_ids_and_shelves_without_the_retired() -> None:
    retired = replace(SHELVES[3], retired=True)
    places = Places([*PLACES[:-1], retired])
    assert places.get(11) is SHELVES[0]
    assert places.get(None) is places.get(99) is None
    assert (places.path(12), places.path(None), places.path(99)) == ("Rack 1/Shelf 2", "", "")
    assert places.shelves == SHELVES[:3]
