"""Pack lots in a story: what is cut, corrected, packed, mixed, taken out and sent back."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.customers import remove_customer
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.delivery_words import line_words
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for, unpack
from logbook.actions.packs.cold_store import cold_store
from logbook.actions.packs.despatching import despatch
from logbook.actions.packs.joining import find_lot
from logbook.actions.packs.note import delivery_note
from logbook.actions.packs.withdrawing import change_lot, pack_mix, take_back, take_out
from logbook.actions.recall.holding import hold, release
from logbook.actions.trays.doing import did
from logbook.actions.trays.page import search
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.growing.packs.lots import LotNow
from logbook.text import Refused
from tests.actions.room_book import moment, room_book, stand_at
from tests.made_once import made_once


@made_once
def ripe_room(folder: Path) -> Book:
    """Four trays of radish (101–104) and two of kale (105, 106) that may be cut, on 10 April."""
    book = room_book(folder)
    sow(book, SowDraft("radish", trays=4, lot="RA-1"))
    sow(book, SowDraft("kale", trays=2))
    did(book, "weight_off", list(range(101, 107)))
    did(book, "light_on", list(range(101, 107)))
    stand_at(book, moment(10))
    return book


def test_a_cut_names_its_lot_and_is_found_by_its_code(room: Book) -> None:
    (cut,) = weigh(room, [101], 210.0)
    (found,) = search(room, cut.lot)
    assert (found.kind, found.said.pack_lot) == ("weigh", cut.lot)


@pytest.fixture
def room(tmp_path: Path) -> Book:
    return ripe_room(tmp_path)


def lot_now(book: Book, code: str) -> LotNow:
    with book.reading() as reading:
        return find_lot(reading, code)


def left(book: Book) -> dict[str, float]:
    return {each.code: each.now.grams_left for each in cold_store(book).lots}


def test_cuts_of_a_day_join_a_lot_until_it_goes_out(room: Book) -> None:
    order(room, OrderDraft("Bistro", "radish 2 x 50g tomorrow"))
    (first,) = weigh(room, (101,), 120.0, part=True)
    (other,) = weigh(room, (102,), 200.0)
    (kale,) = weigh(room, (105,), 150.0)
    pack_for(room, "Bistro")
    (later,) = weigh(room, (101,), 90.0)
    (own,) = weigh(room, (103,), 80.0, lot="MINE-1")
    (new,) = weigh(room, (104,), 70.0, lot="new")

    assert (first.lot, other.lot, kale.lot) == ("260410-RAD-1", "260410-RAD-1", "260410-KAL-1")
    assert (later.lot, own.lot, new.lot) == ("260410-RAD-2", "MINE-1", "260410-RAD-3")
    assert left(room) == {
        "260410-RAD-1": 220, "260410-KAL-1": 150, "260410-RAD-2": 90, "MINE-1": 80, "260410-RAD-3": 70,
    }  # fmt: skip
    with pytest.raises(Refused, match="isn't of cut kale"):
        weigh(room, (106,), 90.0, lot="mine-1")


def test_a_tick_takes_the_oldest_within_best_before_and_not_on_hold(room: Book) -> None:
    weigh(room, (101,), 100.0)
    stand_at(room, moment(11))
    weigh(room, (102,), 100.0)
    stand_at(room, moment(12))
    weigh(room, (103,), 100.0)
    with pytest.raises(Refused, match="more than a year after it was packed"):
        change_lot(room, "260410-RAD-1", best_before="2099-04-12")
    change_lot(room, "260410-RAD-1", best_before="2026-04-12")
    hold(room, "102", "mould")
    order(room, OrderDraft("Bistro", "radish 3 x 40g mon"))  # 13 April

    done = pack_for(room, "Bistro")

    assert done.words.endswith("radish 3 × 40 g (lot 260412-RAD-1)")
    (lacking,) = done.notices
    assert lacking.startswith("radish: 20 g comes from no pack lot in the book. 260411-RAD-1 is on")
    assert lacking.endswith(": mould): pack none of it.")
    assert left(room) == {"260410-RAD-1": 100, "260411-RAD-1": 100}
    for code, why in (
        ("260410-RAD-1", "is best before"),
        ("260411-RAD-1", "is on hold"),
        ("none", "no pack lot"),
    ):
        with pytest.raises(Refused, match=why):
            despatch(room, "Bistro", code, "1 x 40g", "mon")
    release(room, "102", "looked at")
    assert "one more" not in despatch(room, "Bistro", "260411-RAD-1", "1 x 40g").words


def test_more_than_a_named_lot_has_is_refused_and_nothing_is_written(room: Book) -> None:
    weigh(room, (101,), 100.0)
    order(room, OrderDraft("Bistro", "radish 3 x 50g tomorrow"))

    with pytest.raises(Refused, match="has 100 g left, and that takes 150 g"):
        despatch(room, "Bistro", "260410-rad-1", "3")
    with pytest.raises(Refused, match="has 100 g left"):
        take_out(room, "260410-RAD-1", 120.0, "waste")
    for amount in ("lots", "", "0", "-2", "2 trays"):
        with pytest.raises(Refused):
            despatch(room, "Bistro", "260410-RAD-1", amount)
    assert left(room) == {"260410-RAD-1": 100}
    despatch(room, "Bistro", "260410-RAD-1", "2")
    assert list_deliveries(room).deliveries[0].customers[0].lines[0].wish.packed == 2
    assert left(room) == {}


def test_a_weight_is_packed_of_two_lots_and_short(room: Book) -> None:
    """Packs of another size count by their weight; the rest is what a tick takes."""
    for tray, grams in ((101, 92.0), (102, 102.0)):
        weigh(room, (tray,), grams, lot="new")
    order(room, OrderDraft("Bistro", "radish 200g tomorrow"))

    assert despatch(room, "Bistro", "260410-RAD-1", "92g").notices == ()
    assert despatch(room, "Bistro", "260410-RAD-2", "102g").notices == ()

    (delivery,) = list_deliveries(room).deliveries
    (line,) = delivery.customers[0].lines
    assert line_words(line, "metric") == "radish 200 g, 194 g packed"
    assert delivery.crops[0].cover.packed == pytest.approx(194)
    weigh(room, (103,), 50.0)
    assert pack_for(room, "Bistro").words.endswith("radish 6 g (lot 260410-RAD-3)")
    assert list_deliveries(room).deliveries[0].done
    assert left(room) == {"260410-RAD-3": pytest.approx(44)}
    assert despatch(room, "Bistro", "260410-RAD-3", "30g", "tomorrow").notices == (
        "That is 30 g more than Bistro ordered.",
    )


def test_trimmings_count_with_the_packs_that_were_cut_for_them(room: Book) -> None:
    from logbook.actions.room.places import RoomDraft, change_room

    change_room(room, RoomDraft(loss_percent=20.0))
    weigh(room, (101,), 200.0)
    order(room, OrderDraft("Bistro", "radish 2 x 40g tomorrow"))

    assert list_deliveries(room).deliveries[0].crops[0].ready_grams == pytest.approx(160)
    pack_for(room, "Bistro")
    assert left(room) == {"260410-RAD-1": pytest.approx(100)}


def test_corrections_and_strikes_of_what_went_out_are_said(room: Book) -> None:
    (cut,) = weigh(room, (101,), 200.0)
    order(room, OrderDraft("Bistro", "radish 4 x 50g tomorrow"))
    pack_for(room, "Bistro")

    less = replace_entry(room, cut.act_id, "misread", Changes(grams=150.0))
    assert less.notices == (
        "50 g more of lot 260410-RAD-1 went out than its weights say. It went to Bistro.",
    )
    undo(room)
    other = replace_entry(room, cut.act_id, "it was 102", Changes(numbers=(102,)))
    assert other.notices == ()
    assert [each.tray for each in lot_now(room, "260410-RAD-1").cuts] == [2]
    undo(room)
    gone = strike(room, cut.act_id, "a slip")
    assert gone.notices[0].startswith("200 g more of lot 260410-RAD-1 went out")
    lot = lot_now(room, "260410-RAD-1")
    assert (lot.grams_in, lot.grams_despatched, lot.grams_left) == (0, 200, -200)


def test_a_tray_of_another_crop_takes_its_weight_to_its_own_lot(room: Book) -> None:
    (cut,) = weigh(room, (101,), 200.0)
    replace_entry(room, cut.act_id, "it was the kale", Changes(numbers=(105,)))
    assert left(room) == {"260410-KAL-1": 200}


def test_a_mix_is_a_lot_of_its_own_with_the_tick_or_ahead(room: Book) -> None:
    put_mix(room, "salad mix", "2 radish + 1 kale")
    weigh(room, (101,), 300.0)
    weigh(room, (105,), 120.0)
    order(room, OrderDraft("Bistro", "salad mix 3 x 50g tomorrow"))

    assert pack_mix(room, "salad mix", 60.0).words == (
        "lot 260410-SAL-1: 60 g salad mix, from 260410-RAD-1 and 260410-KAL-1"
    )
    done = pack_for(room, "Bistro")
    assert "(lot 260410-SAL-1 and 260410-SAL-2)" in done.words
    assert left(room) == pytest.approx({"260410-RAD-1": 200, "260410-KAL-1": 70})
    with pytest.raises(Refused, match="267 g of radish, and the cold store has 200 g"):
        pack_mix(room, "salad mix", 400.0)
    (line,) = delivery_note(room, "Bistro").lines
    assert [each.lot for each in line.lots] == ["260410-SAL-1", "260410-SAL-2"]


def test_live_trays_leave_the_rack_with_the_tick(room: Book) -> None:
    order(room, OrderDraft("Shop", "2 trays radish tomorrow"))
    (delivery,) = list_deliveries(room).deliveries
    wish = delivery.customers[0].lines[0].wish

    done = despatch(room, "Shop", "103,104", "2")
    assert done.words.endswith("radish 2 live trays (lot 260410-RAD-1: 103 104)")
    with room.reading() as reading:
        assert {tray.number for tray in reading.live} == {101, 102, 105, 106}
    with pytest.raises(Refused, match="103"):
        weigh(room, (103,), 200.0)
    unpack(room, wish.order.id, wish.day)
    with room.reading() as reading:
        assert len(reading.live) == 6
    assert "101 102" in pack_for(room, "Shop").words
    with pytest.raises(Refused, match="999"):
        despatch(room, "Shop", "999", "1")


def test_what_comes_back_is_waste_and_never_more_than_was_got(room: Book) -> None:
    weigh(room, (101,), 200.0)
    order(room, OrderDraft("Bistro", "radish 2 x 50g tomorrow"))
    pack_for(room, "Bistro")
    removed = remove_customer(room, "Bistro")
    assert "a recall still names them" in removed.notices[0]

    with pytest.raises(Refused, match="no more can come back"):
        take_back(room, "Bistro", "260410-RAD-1", 150.0)
    take_back(room, "Bistro", "260410-RAD-1", None, note="wilted")
    with pytest.raises(Refused, match="nothing of lot"):
        take_back(room, "Bistro", "260410-RAD-1", 10.0)
    lot = lot_now(room, "260410-RAD-1")
    assert (lot.grams_despatched, lot.grams_waste, lot.grams_left) == (0, 100, 100)
    assert strike(room, lot.packed[0].entry, "a slip").notices == (
        "Bistro returned 100 g more of lot 260410-RAD-1 than they got. Strike out the return too.",
    )


def test_codes_are_given_once_and_hold_through_a_number_used_again(room: Book) -> None:
    weigh(room, (101,), 200.0)
    change_lot(room, "260410-RAD-1", "R10", "2026-04-15")
    weigh(room, (105,), 90.0)
    with pytest.raises(Refused, match="has or had the code"):
        change_lot(room, "R10", "260410-kal-1")
    for code in ("two words", "", "x" * 21, "[b]", "-1"):
        with pytest.raises(Refused):
            change_lot(room, "R10", code)
    with pytest.raises(Refused, match="can't be best before"):
        change_lot(room, "R10", best_before="2026-04-09")
    sow(room, SowDraft("radish", numbers=(101,)))
    stand_at(room, moment(18))
    weigh(room, (101,), 150.0)

    old = lot_now(room, "260410-RAD-1")
    assert (old.lot.code, [each.tray for each in old.cuts]) == ("R10", [1])
    assert "260418-RAD-1" in left(room)
