"""What is on hold goes nowhere until it is released; the clock stands at Tue 14 April 2026."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.orders.deliveries import trays_to_cut
from logbook.actions.recall.holding import hold, list_holds, release
from logbook.actions.trays.agenda import agenda
from logbook.actions.trays.doing import did
from logbook.actions.trays.due import due
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.till import till
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.trays.round import make_round
from logbook.store.reads.templates import read_templates
from logbook.text import Refused
from logbook.ways import in_shell

WHY = "mould seen"


@pytest.fixture
def room(book: Book) -> Book:
    """Radish from two bags, ready to be cut: 101 and 102 from A-1 on shelf 1, 103 and 104 from B-2."""
    assert isinstance(book.clock, FixedClock)
    now = book.clock.at
    book.clock.at = now - timedelta(days=8)
    sow(book, SowDraft("radish", trays=2, lot="A-1", place="Rack 1/Shelf 1"))
    sow(book, SowDraft("radish", trays=2, lot="B-2", place="Rack 1/Shelf 2"))
    numbers = (101, 102, 103, 104)
    book.clock.at += timedelta(days=2)
    did(book, "weight_off", numbers)
    book.clock.at += timedelta(days=1)
    did(book, "light_on", numbers)
    book.clock.at = now
    return book


def _offered(book: Book) -> set[int]:
    """All trays that anything asks for: rounds, weigh-in, due, racks, calendar, deliveries."""
    today = book.today()
    found = {
        number
        for ahead in range(4)
        for line in the_round(book, today + timedelta(days=ahead)).lines
        for number in line.numbers
    }
    found |= {number for line in the_round(book).lines for number in line.numbers}
    weighing = till(book)
    found |= {*weighing.left, *weighing.trays}
    found |= {tray.number for tray in due(book, 30)}
    shelves = [shelf for rack in racks(book).racks for shelf in rack.shelves]
    found |= {tray.number for shelf in shelves for tray in shelf.trays if tray.due}
    found |= {number for each in agenda(book, 30) for number in each.numbers}
    with book.reading() as reading:
        names = {tray.id: tray.number for tray in reading.live}
        crops = {each.id for each in read_templates(reading)}
        found |= {names[each.tray] for each in trays_to_cut(reading, crops)}
    return found


def test_a_seed_lot_takes_its_trays_out_of_everything_until_it_is_released(room: Book) -> None:
    said = hold(room, "a1", WHY)

    assert said.words == "on hold: seed lot A-1, with 2 trays: 101 102"
    assert _offered(room) == {103, 104}
    (held,) = the_round(room).on_hold
    assert held.words == "On hold: 101 102 (seed lot A-1: mould seen)"
    release(room, "A-1", "nothing found")
    assert _offered(room) == {101, 102, 103, 104}
    assert list_holds(room).holds == ()


@pytest.mark.parametrize("code", ["101", "b1", "A-1", "Rack 1/Shelf 1"])
def test_what_is_held_is_not_cut_and_the_refusal_says_how_it_could_be(
    room: Book, code: str
) -> None:
    hold(room, code, WHY)

    with pytest.raises(Refused, match=r"Tray 101 is on hold .*mould seen.*"):
        weigh(room, (101,), 250)
    with pytest.raises(Refused, match="is on hold"):
        did(room, "cut", (101,))
    release(room, code, "nothing found")
    weigh(room, (101,), 250)


def test_a_cut_from_before_the_hold_may_still_be_written(room: Book) -> None:
    hold(room, "101", WHY)

    weigh(room, (101,), 250, at=room.now() - timedelta(hours=1))


def test_care_goes_on_and_what_is_held_may_be_moved_away_or_discarded(room: Book) -> None:
    hold(room, "Rack 1/Shelf 1", WHY)

    did(room, "water", (101, 102))
    move(room, (101,), "Rack 2/Shelf 1")
    discard(room, (102,), "mould")

    assert _offered(room) == {103, 104}
    with pytest.raises(Refused, match="Tray 101 is on hold"):
        weigh(room, (101,), 250)


def test_nothing_new_comes_on_a_held_shelf_or_from_a_held_bag(room: Book) -> None:
    hold(room, "Rack 1/Shelf 1", WHY)
    hold(room, "A-1", WHY)

    with pytest.raises(Refused, match="Rack 1/Shelf 1 is on hold"):
        move(room, (103,), "Rack 1/Shelf 1")
    with pytest.raises(Refused, match="Rack 1/Shelf 1 is on hold"):
        sow(room, SowDraft("radish", trays=1, lot="B-2", place="Rack 1/Shelf 1"))
    with pytest.raises(Refused, match="Seed lot A-1 is on hold"):
        sow(room, SowDraft("radish", trays=1, lot="a 1"))
    assert sow(room, SowDraft("radish", trays=1, lot="B-2")).plan.places == ("Rack 1/Shelf 2",)


def test_two_holds_on_a_tray_are_released_one_by_one(room: Book) -> None:
    hold(room, "101", WHY)
    hold(room, "A-1", "the supplier called")

    (said,) = release(room, "101", "clean").notices

    assert said == "Still on hold: 101 (seed lot A-1: the supplier called)."
    with pytest.raises(Refused, match="Tray 101 is on hold with seed lot A-1; release that"):
        release(room, "101", "clean")


def test_undo_takes_a_hold_back_and_a_release_too(room: Book) -> None:
    hold(room, "b1", WHY)
    release(room, "b1", "clean")
    undo(room)
    assert _offered(room) == {103, 104}
    undo(room)
    assert _offered(room) == {101, 102, 103, 104}


def test_what_is_gone_is_marked_and_that_is_said(room: Book) -> None:
    discard(room, (101, 102), "mould")

    said = hold(room, "b1", WHY)

    assert in_shell(said.notices[0]) == (
        "None of batch 1 is growing or in the cold store. The hold marks it; "
        '`logbook recall "batch 1"` shows who has it.'
    )
    with pytest.raises(Refused, match="Batch 1 is on hold already, since"):
        hold(room, "b1", WHY)


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("999", "There is no tray 999"),
        ("Z-9", "Nothing in the book is called"),
        ("", "code"),
        ("b77", "Nothing in the book is called"),
    ],
)
def test_a_code_of_nothing_is_refused(room: Book, code: str, words: str) -> None:
    with pytest.raises(Refused, match=words):
        hold(room, code, WHY)


def test_a_tray_s_page_shows_the_hold_and_its_release(room: Book) -> None:
    hold(room, "A-1", WHY)
    release(room, "A-1", "clean")

    past = [line.words for line in tray_page(room, 101).past]
    assert past[-2:] == ["on hold: seed lot A-1", "released: seed lot A-1"]


CODES = ("101", "102", "103-104", "b1", "b2", "A-1", "B-2", "Rack 1/Shelf 1", "Rack 1", "Rack 2")
STEPS = st.lists(
    st.tuples(
        st.sampled_from(("hold", "hold", "release", "move", "weigh", "sow", "undo", "did")),
        st.sampled_from(CODES),
        st.integers(101, 106),
    ),
    min_size=4,
    max_size=14,
)


def _step(book: Book, what: str, code: str, number: int) -> None:
    """Do it where it can be done."""
    assert isinstance(book.clock, FixedClock)
    book.clock.at += timedelta(hours=1)
    match what:
        case "hold":
            hold(book, code, WHY)
        case "release":
            release(book, code, "clean")
        case "move":
            move(book, (number,), "Rack 2/Shelf 1")
        case "weigh":
            weigh(book, (number,), 250)
        case "sow":
            sow(book, SowDraft("radish", 1, lot="A-1" if number % 2 else "B-2"))
        case "undo":
            undo(book)
        case "did":
            did(book, "water", (number,))


@settings(max_examples=7, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_whatever_is_done_nothing_held_is_offered_and_all_that_is_released_is(
    room: Book, steps: list[tuple[str, str, int]]
) -> None:
    """The room is one for all examples: what holds then, holds after many."""
    for what, code, number in steps:
        before = {n for each in list_holds(room).holds for n in each.numbers}
        try:
            _step(room, what, code, number)
        except Refused:
            continue
        assert what != "weigh" or number not in before
        held = {n for each in list_holds(room).holds for n in each.numbers}
        assert not held & _offered(room)
    for each in reversed(list_holds(room).holds):
        if each.hold.name in [one.hold.name for one in list_holds(room).holds]:
            release(room, each.hold.name, "clean")
    with room.reading() as reading:
        free = [replace(tray, held=None) for tray in reading.live]
        assert reading.live == free
        assert the_round(room).lines == make_round(free, reading.now, reading.today).lines
