"""A recall reaches all who got something, and no one else; the clock stands at Tue 14 April 2026."""

from __future__ import annotations

from contextlib import suppress
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.drawing import free_lots, in_store
from logbook.actions.packs.held import held_lot
from logbook.actions.packs.trace import trace
from logbook.actions.recall.holding import hold, list_holds, release
from logbook.actions.recall.recall_words import recall_lines
from logbook.actions.recall.recalling import RecallDraft, keep_recall, list_recalls, recall
from logbook.actions.trays.moving import move
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.recall.letter import letter
from logbook.text import Refused
from tests.actions.packs.gone_out import despatch, lot_ids


@pytest.fixture
def room(book: Book) -> Book:
    """Radish from A-1 (101 on shelf 1, cut; 103 grows) and from B-2 (102, cut on another day).

    Of A-1's 400 g Bistro got 150 g and Cafe 50 g; Deli got 100 g of B-2's.
    """
    assert isinstance(book.clock, FixedClock)
    now = book.clock.at
    book.clock.at = now - timedelta(days=9)
    for name, contact in (("Bistro", "01234"), ("Cafe", ""), ("Deli", "deli at noon")):
        put_customer(book, CustomerDraft(name, contact=contact), new=True)
    sow(book, SowDraft("radish", trays=1, lot="A-1", place="Rack 1/Shelf 1"))
    sow(book, SowDraft("radish", trays=1, lot="B-2", place="Rack 1/Shelf 2"))
    book.clock.at = now - timedelta(days=1)
    weigh(book, (102,), 300)
    (other,) = lot_ids(book)
    despatch(book, "Deli", {other: 100})
    book.clock.at = now
    sow(book, SowDraft("radish", trays=1, lot="A-1", place="Rack 2"))
    weigh(book, (101,), 400)
    mine = next(code for code in lot_ids(book) if code != other)
    despatch(book, "Bistro", {mine: 150})
    despatch(book, "Cafe", {mine: 50})
    return book


def _called(book: Book, code: str) -> dict[str, float]:
    return {each.name: each.grams for each in recall(book, code).customers}


def test_from_a_bag_to_its_customers_what_lies_cold_and_what_grows(room: Book) -> None:
    found = recall(room, "A-1")

    assert {each.name: (each.contact, each.grams) for each in found.customers} == {
        "Bistro": ("01234", 150), "Cafe": ("", 50),
    }  # fmt: skip
    assert [lot.grams_stock for lot in found.cold] == [200]
    assert [tray.number for tray in found.trays] == [103]
    assert (found.grams_in, found.grams_out, found.grams_stock) == (400, 200, 200)
    lines = [line.text for line in recall_lines(found, room.units)]
    assert lines[0] == "Call 2 customers: 2 packs, 200 g"
    assert lines[1] == "  Bistro: 01234"
    assert "  Cafe: no contact written" in lines
    assert "  103, radish, Rack 2/Shelf 1, not on hold" in lines


@pytest.mark.parametrize(
    ("code", "names"),
    [
        ("a1", {"Bistro", "Cafe"}),
        ("B-2", {"Deli"}),
        ("b1", {"Bistro", "Cafe"}),
        ("102", {"Deli"}),
        ("day 2026-04-14", {"Bistro", "Cafe"}),
        ("2026-04-13", {"Deli"}),
        ("Rack 1/Shelf 2", {"Deli"}),
        ("Rack 1", {"Bistro", "Cafe", "Deli"}),
        ("260413-RAD-1", {"Deli"}),
        ("pack lot 260414-RAD-1", {"Bistro", "Cafe"}),
    ],
)
def test_it_begins_at_a_bag_a_batch_a_tray_a_day_a_shelf_or_packs(
    room: Book, code: str, names: set[str]
) -> None:
    assert set(_called(room, code)) == names


def test_a_finding_reaches_its_trays_or_those_that_stood_there_then(room: Book) -> None:
    assert isinstance(room.clock, FixedClock)
    room.clock.at += timedelta(hours=1)
    on_tray = jot(room, (102,), "smells off").act_id
    on_shelf = jot(room, (), "a glass broke", place="Rack 1/Shelf 1").act_id
    room.clock.at += timedelta(hours=1)
    move(room, (103,), "Rack 1/Shelf 1")

    assert set(_called(room, f"entry {on_tray}")) == {"Deli"}
    with pytest.raises(Refused, match="No tray was on Rack 1/Shelf 1"):
        recall(room, f"entry {on_shelf}")
    with pytest.raises(Refused, match="names no tray and no place"):
        recall(room, f"entry {jot(room, (), 'hot day').act_id}")


@pytest.mark.parametrize("code", ["Z-9", "day 2026-01-01", "entry 99999", "Rack 2/Shelf 2", ""])
def test_what_the_book_does_not_know_is_refused_with_a_sentence(room: Book, code: str) -> None:
    with pytest.raises(Refused, match=r"\.$"):
        recall(room, code)


def test_a_hold_on_the_bag_holds_its_packs_and_a_release_frees_them(room: Book) -> None:
    hold(room, "A-1", "the supplier called")
    found = recall(room, "A-1")
    assert [lot.on_hold for lot in found.cold] == ["seed lot A-1: the supplier called"]
    assert [tray.on_hold for tray in found.trays] == ["seed lot A-1: the supplier called"]

    release(room, "A-1", "the laboratory found nothing")
    assert [lot.on_hold for lot in recall(room, "A-1").cold] == [""]


def test_packs_and_a_day_are_put_on_hold_by_their_codes(room: Book) -> None:
    said = hold(room, "day 2026-04-14", "a blade broke")
    assert said.words == "on hold: pack lot 260414-RAD-1; in the cold store: 260414-RAD-1 (200 g)"
    with pytest.raises(Refused, match="is on hold already"):
        hold(room, "260414-RAD-1", "again")
    release(room, "260414-RAD-1", "found it")


LOTS = st.lists(
    st.tuples(
        st.sampled_from(("cut", "tick", "tick", "hold", "release", "undo")),
        st.sampled_from(("A-1", "B-2", "b1", "101", "260414-RAD-1", "260414-RAD-2", "day today")),
    ),
    min_size=6,
    max_size=16,
)


@settings(max_examples=6, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=LOTS)
def test_nothing_on_hold_is_despatched_and_all_that_is_released_may_be(
    room: Book, steps: list[tuple[str, str]]
) -> None:
    """Each tick draws from what is free then; the room is one for all examples."""
    for what, code in steps:
        with room.reading() as reading:
            held = {
                lot.lot.id for lot in in_store(reading, reading.today) if held_lot(reading, lot)
            }
            before = reading.value("SELECT max(entry_id) FROM packed_lot") or 0
        with suppress(Refused):
            _step(room, what, code)
        with room.reading() as reading:
            gone = reading.rows("SELECT lot_id FROM packed_lot WHERE entry_id > ?", (before,))
            assert held.isdisjoint(lot for (lot,) in gone)
            free = {each.lot.id for each in free_lots(reading, reading.today, reading.now)}
            assert what == "release" or held.isdisjoint(free) or what == "undo"
    while standing := list_holds(room).holds:
        release(room, standing[0].hold.name, "clean")
    with room.reading() as reading:
        assert free_lots(reading, reading.today, reading.now) == in_store(reading, reading.today)


def _step(book: Book, what: str, code: str) -> None:
    match what:
        case "cut":
            lot = code if code in ("A-1", "B-2") else "A-1"
            sown = sow(book, SowDraft("radish", 1, lot=lot, at=book.now() - timedelta(days=8)))
            weigh(book, sown.plan.numbers, 250)
        case "tick":
            order(book, OrderDraft("Bistro", "radish 50g today 20:00"))
            pack_for(book, "Bistro", packs=1)
        case "hold":
            hold(book, code, "to be looked at")
        case "release":
            release(book, code, "clean")
        case "undo":
            undo(book)


def test_who_got_packs_from_no_lot_while_a_cut_without_one_kept_may_have_got_some(
    room: Book,
) -> None:
    with room.file.writing() as connection:
        connection.connection.execute(
            "UPDATE weight SET lot_id = NULL"
        )  # as a book from before lots has it
    order(room, OrderDraft("Bistro", "radish 2x50g tomorrow"))
    order(room, OrderDraft("Cafe", "kale 50g tomorrow"))
    for name in ("Bistro", "Cafe"):
        pack_for(room, name)
        with room.file.writing() as connection:
            connection.connection.execute(
                "DELETE FROM packed_lot WHERE entry_id = (SELECT max(entry_id) FROM packed)"
            )

    found = recall(room, "A-1")

    assert found.grams_unaccounted == 400
    assert [each.words for each in found.may_have_got] == [
        "Bistro: 01234, radish, 2 packs, delivered Wed 15 Apr"
    ]
    (row,) = found.rows
    assert (row.customer, row.packs, row.lot, row.sure) == ("Bistro", 2, "", "perhaps some of it")
    (bistro,) = found.everybody
    text = letter(bistro, room.today(), "", "", room.units)
    assert "- no lot written, radish, 2 packs, delivered Wed 15 Apr: perhaps" in text


def test_a_recall_says_how_sure_it_is_of_packs_from_mixed_lots(room: Book) -> None:
    """250 g of each bag in one lot: half of all packs is of either; a trace counts the same."""
    assert isinstance(room.clock, FixedClock)
    sown = room.now() - timedelta(days=8)
    for lot in ("C-3", "D-4"):
        trays = sow(room, SowDraft("radish", trays=2, lot=lot, at=sown)).plan.numbers
        weigh(room, trays, 500, lot="MIXED-1")
    despatch(room, "Cafe", {"MIXED-1": 200})
    found = recall(room, "C-3")

    ((packs,),) = [one.deliveries for one in found.customers]
    assert (packs.grams, packs.called_grams, packs.sure) == (200, 100, "about 50 % of it")
    lines = [line.text for line in recall_lines(found, room.units)]
    assert lines[0] == "Call 1 customer: 1 pack, 200 g; 100 g of that is of seed lot C-3"
    assert lines[2].endswith(", about 50 % of it")
    (share,) = trace(room, "C-3").customers
    assert (share.customer, share.grams) == ("Cafe", 100)


def test_a_tick_that_was_in_part_of_no_lot_may_have_had_some_too(room: Book) -> None:
    """200 g of it are in a lot; the other 300 g may be what was cut and is in none."""
    with room.file.writing() as connection:
        connection.connection.execute("UPDATE weight SET lot_id = NULL WHERE grams = 400")
    order(room, OrderDraft("Deli", "radish 500g tomorrow"))
    pack_for(room, "Deli")

    for found in (recall(room, "A-1"), trace(room, "A-1")):
        assert [each.customer for each in found.may_have_got] == ["Deli"]


def test_a_letter_names_lots_and_what_is_asked(room: Book) -> None:
    (bistro, _) = recall(room, "A-1").customers

    text = letter(bistro, room.today(), "Hill Greens", "1 Lane\nTown", room.units)

    assert text.startswith("Hill Greens\n1 Lane\nTown\nTue 14 Apr 2026\n\nTo: Bistro (01234)\n")
    assert "- lot 260414-RAD-1, radish, 1 pack, 150 g, delivered Tue 14 Apr, best before" in text
    assert "Keep what is left apart" in text


def test_a_practice_is_timed_kept_and_can_be_undone(room: Book) -> None:
    begun = room.now()
    assert isinstance(room.clock, FixedClock)
    room.clock.at += timedelta(seconds=42)

    said = keep_recall(room, RecallDraft("A-1", begun, note="all reached"))

    assert said.words == "practice from seed lot A-1: 2 customers, 1 lot, 200 g in 42 s"
    (kept,) = list_recalls(room).recalls
    assert (kept.seconds, kept.practice, kept.note) == (42, True, "all reached")
    undo(room)
    assert list_recalls(room).recalls == ()
    with pytest.raises(Refused, match="Give how long it took"):
        keep_recall(room, RecallDraft("A-1", room.now() + timedelta(hours=1)))
