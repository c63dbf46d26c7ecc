"""The traceability rule's sheets of lots that were made here; what nobody told stays blank."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.withdrawing import change_lot
from logbook.actions.records.lot_sheets import every_sheet, lot_sheet
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.seed.writing import buy_seed
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.actions.yields.listing import Span
from logbook.growing.seed.bags import Bag
from tests.actions.room_book import SHELF, moment, room_book, stand_at

HERE = "Hill Farm, 555 0100, 4 Mill Lane; 9 Marsh End"


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Two trays of radish of a bag that was bought, cut and weighed on 10 April 2026."""
    book = room_book(tmp_path)
    bought = book.today() - timedelta(days=9)
    buy_seed(book, Bag("RA-12", "radish", 1000.0, bought, "Seed & Sons", treated=False))
    sow(book, SowDraft("radish", trays=2, place=SHELF, lot="RA-12"))
    stand_at(book, moment(10))
    weigh(book, [101], 240.0)
    weigh(book, [102], 260.0)
    return book


def told(book: Book, event: str) -> list[dict[str, str]]:
    found = lot_sheet(book, event)
    return [dict(zip(found.heads, row, strict=True)) for row in found.rows]


def test_a_lot_is_packed_from_what_was_cut_of_a_batch_on_a_shelf(book: Book) -> None:
    (blank,) = told(book, "packing")
    assert blank["Location description for the farm where the food was harvested"] == ""
    change_room(
        book,
        RoomDraft(maker="Hill Farm", phone="555 0100", address="4 Mill Lane; 9 Marsh End"),
    )
    (row,) = told(book, "packing")
    assert row["Traceability lot code"] == "260410-RAD-1"
    assert row["Commodity"] == "radish"
    assert (row["Quantity of the food received"], row["Unit of measure of the food received"]) == (
        "500", "g",
    )  # fmt: skip
    assert row["Quantity of the packed food"] == "500"
    assert row["Location description for the farm where the food was harvested"] == HERE
    assert row["Name of the field or other growing area"] == SHELF
    assert row["Business name and phone number for the harvester"] == "Hill Farm, 555 0100"
    assert row["Date of harvesting"] == row["Date of initial packing"] == "2026-04-10"
    assert row["Date of cooling"] == ""  # nobody said


def test_the_seed_of_a_lot_is_named_with_who_sold_it(book: Book) -> None:
    (row,) = told(book, "sprouts")
    assert row["Seed lot code"] == "RA-12"
    assert row["Location description for the seed supplier"] == "Seed & Sons"
    assert row["Date of receipt of the seeds"] == "2026-03-23"
    assert row["Description of the seeds"] == "radish, untreated"
    assert row["Location description for the grower of seeds"] == ""


def test_what_went_out_names_its_lot_and_a_mix_the_lots_that_it_took_of(book: Book) -> None:
    change_room(book, RoomDraft(maker="Hill Farm", address="4 Mill Lane; 9 Marsh End"))
    stand_at(book, moment(1))
    sow(book, SowDraft("kale", trays=1, place=SHELF))
    stand_at(book, moment(10, 9))
    weigh(book, [103], 150.0)
    put_mix(book, "salad", "2 radish + 1 kale")
    order(book, OrderDraft("Bistro", "salad 3 x 50g tomorrow"))
    pack_for(book, "Bistro", "salad")
    used = {
        row["Traceability lot code of the food used"]: row for row in told(book, "transformation")
    }
    assert used.keys() == {"260410-RAD-1", "260410-KAL-1"}
    assert used["260410-RAD-1"]["Quantity of the food used"] == "100"
    stand_at(book, moment(11))
    (sent,) = told(book, "shipping")
    (mixed,) = {row["New traceability lot code"] for row in used.values()}
    assert sent["Traceability lot code"] == mixed != ""
    assert (sent["Quantity"], sent["Unit of measure"]) == ("150", "g")
    assert sent["Location description for the immediate subsequent recipient"] == "Bistro"


def test_a_lot_that_keeps_long_is_named_when_it_goes_out(book: Book) -> None:
    change_lot(book, "260410-RAD-1", best_before="30 Sep")
    stand_at(book, moment(20, month=9))
    order(book, OrderDraft("Bistro", "radish 2 x 50g tomorrow"))
    pack_for(book, "Bistro", "radish")
    stand_at(book, moment(22, month=9))
    (row,) = told(book, "shipping")
    assert row["Traceability lot code"] == "260410-RAD-1"


def test_packs_of_no_known_lot_have_a_blank_code(book: Book) -> None:
    order(book, OrderDraft("Bistro", "cress 2 x 50g tomorrow"))
    pack_for(book, "Bistro", "cress")
    stand_at(book, moment(11))
    (sent,) = told(book, "shipping")
    assert sent["Traceability lot code"] == ""
    assert (sent["Quantity"], sent["Product description"]) == ("100", "cress")


def test_a_struck_weight_is_on_no_sheet_and_other_days_have_none(book: Book) -> None:
    undo(book)
    (row,) = told(book, "harvesting")
    assert row["Quantity"] == "240"
    assert not lot_sheet(book, "harvesting", Span(until=book.today() - timedelta(days=1))).rows
    assert [each.sheet.name for each in every_sheet(book, Span()) if each.rows] == [
        "harvesting", "cooling", "packing", "sprouts",
    ]  # fmt: skip
