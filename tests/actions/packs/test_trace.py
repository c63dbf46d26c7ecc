"""From the bag to the plate and back, in a real book, with every correction."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from logbook.actions.book import Book
from logbook.actions.packs.life import life_of
from logbook.actions.packs.trace import SeedTrace, trace
from logbook.actions.packs.trace_words import trace_lines
from logbook.actions.seed.writing import buy_seed
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.packs.trace import CustomerShare
from logbook.growing.seed.bags import Bag
from logbook.text import Refused
from tests.actions.packs.gone_out import DAY, despatch, lot_ids, mixed, take_out
from tests.room import field_test


def sown(book: Book, lot: str, trays: int = 1) -> tuple[int, ...]:
    """Trays of the field test from a seed lot, sown ten days ago."""
    at = book.now() - timedelta(days=10)
    return sow(book, SowDraft("field test", trays, lot=lot, at=at)).plan.numbers


@pytest.fixture
def room(book: Book) -> Book:
    """Two bags; 300 g cut from one, 100 g from the other, all in one pack lot; 250 g to two customers."""
    for name, shop in (("RA 1", "Hill farm"), ("RA 2", "Marsh Lane")):
        buy_seed(book, Bag(name, "field test", 500.0, date(2026, 3, 2), shop))
    first, second = (sown(book, name)[0] for name in ("RA 1", "RA 2"))
    weigh(book, [first], 300)
    weigh(book, [second], 100)
    (code,) = lot_ids(book)
    despatch(book, "Bistro", {code: 200}, packs=2)
    despatch(book, "Corner café", {code: 50})
    take_out(book, code, 40, "waste")
    return book


def sums(book: Book, code: str) -> tuple[float, ...]:
    found = trace(book, code)
    return tuple(
        round(each, 1)
        for each in (
            found.grams_in, found.grams_out, found.grams_stock, found.grams_waste,
            found.grams_unaccounted,
        )
    )  # fmt: skip


def test_a_bag_is_followed_to_every_customer_in_proportion(room: Book) -> None:
    (code,) = lot_ids(room)
    assert sums(room, "RA 1") == (300, 187.5, 82.5, 30, 0)
    assert trace(room, "RA 1").customers == (
        CustomerShare("Bistro", (code,), 150, DAY),
        CustomerShare("Corner café", (code,), 37.5, DAY),
    )
    assert sums(room, code) == (400, 250, 110, 40, 0)
    assert sums(room, "Hill farm") == sums(room, "ra 1") == sums(room, "batch 1")
    assert sums(room, "101") == sums(room, "101@2026-04-04") == sums(room, "b1")


def test_a_delivery_leads_back_to_the_bags(room: Book) -> None:
    found = trace(room, "bistro@2026-04-14")
    assert found.root.code == "Bistro@2026-04-14"
    assert [(each.what, each.code, each.grams) for each in found.back] == [
        ("pack lot", *lot_ids(room), 200),
        ("cut", str(found.back[1].code), 50), ("cut", str(found.back[2].code), 150),
        ("tray", "102@2026-04-04", 50), ("tray", "101@2026-04-04", 150),
        ("batch", "2", 50), ("batch", "1", 150), ("seed lot", "RA 2", 50), ("seed lot", "RA 1", 150),
    ]  # fmt: skip
    assert "Hill farm, 500 g" in found.back[-1].words
    assert sums(room, "Bistro") == (200, 200, 0, 0, 0)
    with pytest.raises(Refused, match="got nothing on Mon 13 Apr"):
        trace(room, "Bistro@2026-04-13")


def test_a_mix_of_lots_is_passed_through(room: Book) -> None:
    (code,) = lot_ids(room)
    mix = mixed(room, "mild", {code: 100}, field_test())
    despatch(room, "Diner", {mix: 80})
    assert trace(room, "RA 2").customers[-1] == CustomerShare("Diner", (mix,), 20, DAY)
    assert sums(room, "RA 2") == (100, 82.5, 7.5, 10, 0)
    assert trace(room, "Diner").back[-1].code == "RA 1"
    assert sums(room, mix) == (100, 80, 20, 0, 0)


def test_what_came_back_is_waste_and_not_with_the_customer(room: Book) -> None:
    (code,) = lot_ids(room)
    take_out(room, code, 60, "returned", "Bistro")
    assert sums(room, code) == (400, 190, 110, 100, 0)
    assert trace(room, code).customers[0].grams == 140


def test_a_corrected_weight_corrects_the_trace(room: Book) -> None:
    entry = next(int(each.code) for each in trace(room, "RA 2").forward if each.what == "cut")
    replace_entry(room, entry, "misread", Changes(grams=500.0))
    assert sums(room, "RA 2")[0] == 500
    assert trace(room, "RA 1").customers[0].grams == 75
    undo(room)
    assert sums(room, "RA 1") == (300, 187.5, 82.5, 30, 0)


def test_a_struck_weight_that_is_despatched_still_leads_to_the_customer(book: Book) -> None:
    (number,) = sown(book, "RA 1")
    weigh(book, [number], 300)
    (code,) = lot_ids(book)
    despatch(book, "Bistro", {code: 200})
    entry = next(int(each.code) for each in trace(book, "RA 1").forward if each.what == "cut")
    strike(book, entry, "another tray")
    assert [each.customer for each in trace(book, "RA 1").customers] == ["Bistro"]
    assert sums(book, code) == (0, 200, 0, 0, -200)
    assert "struck out" in trace(book, code).back[0].words


def test_cuts_and_packs_without_a_lot_show_as_such(room: Book) -> None:
    with room.writing() as act:
        act.writer.connection.execute("UPDATE weight SET lot_id = NULL WHERE tray_id = 2")
    assert sums(room, "RA 2") == (100, 0, 0, 0, 100)
    assert trace(room, "RA 2").forward[-1].words.endswith("no lot written")
    despatch(room, "Diner", {}, packs=3)
    found = trace(room, "Diner")
    assert (found.grams_in, found.back[0].words) == (300, "packs, no lot written")
    assert found.customers == (CustomerShare("Diner", ("no lot written",), 300, DAY),)
    told = [line.text for line in trace_lines(found, "metric", room.when)]
    assert told == ["Customers", "  Diner, Tue 14 Apr: 300 g of packs with no lot written"]


def test_trays_sold_live_lead_to_their_customer_without_grams(book: Book) -> None:
    (number,) = sown(book, "RA 1")
    with book.writing() as act:
        (tray,) = (each.id for each in act.reading.trays([number]))
        sale = act.entry("sold_live", [tray])
        code = "260414-LIV-1"
        act.put(
            "pack_lot", sale, lot_id=sale, code=code, code_key=code.casefold(), template_id=None,
            mix_id=None, packed_on=DAY, best_before=DAY,
        )  # fmt: skip
    despatch(book, "Bistro", {code: None})
    assert trace(book, "RA 1").customers == (CustomerShare("Bistro", (code,), 0, DAY),)
    assert [each.what for each in trace(book, "Bistro").back][-1] == "seed lot"
    life = {each.what: each.words for each in life_of(book, code).life}
    assert life["cut"].endswith("sold live")


def test_a_batch_of_two_bags_counts_by_the_seed_of_each(book: Book) -> None:
    numbers = sown(book, "RA 1 = 30 g + RA 2 = 10 g", 2)
    weigh(book, numbers, 400)
    assert [sums(book, name)[0] for name in ("RA 1", "RA 2", "b1")] == [300, 100, 400]


def test_what_several_are_called_is_asked_about(room: Book) -> None:
    sown(room, "101")
    with pytest.raises(Refused, match='write "seed lot 101" or "tray 101@2026-04-04"'):
        trace(room, "101")
    assert isinstance(trace(room, "seed lot 101"), SeedTrace)
    assert trace(room, "tray 101").root.what == "tray"


@pytest.mark.parametrize(
    "code", ["", " ", "zz", "b999", "999", "101@2020-01-01", "101 102", "@", "x" * 9999]
)
def test_what_nothing_is_called_is_refused_with_a_sentence(room: Book, code: str) -> None:
    with pytest.raises(Refused, match=r"[.?]$"):
        trace(room, code)


def test_a_number_that_is_used_again_means_the_tray_of_a_day(room: Book) -> None:
    assert isinstance(room.clock, FixedClock)
    room.clock.at += timedelta(days=20)
    sow(room, SowDraft("field test", 1, numbers=(101,), lot="RA 9"))
    assert sums(room, "101")[0] == 0
    assert sums(room, "101@2026-04-04")[0] == 300
