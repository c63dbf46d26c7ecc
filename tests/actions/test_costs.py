"""Costs from a book: seed by its lot's price, chores counted, light by the meter."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from logbook.actions.costs.costing import batch_costs, crop_costs
from logbook.actions.costs.rates import list_rates, set_rate
from logbook.actions.room.lamps import set_tariff
from logbook.actions.seed.writing import buy_seed, weigh_seed
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.growing.room.tariffs import Tariff
from logbook.growing.seed.bags import Bag
from logbook.text import Refused
from tests.actions.room_book import SHELF, moment, room_book, stand_at, with_lamps


def test_costs_of_a_batch_and_its_crop(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    with_lamps(book)
    set_tariff(book, Tariff(moment(1).date(), Decimal("0.30")))
    buy_seed(book, Bag("R1", "radish", 1000, moment(1).date(), price=Decimal("12.50")))
    for name, amount in {"wage": "18", "minutes-cut": "4", "medium": "0.35"}.items():
        set_rate(book, name, Decimal(amount))
    set_rate(book, "sale", Decimal(20), crop="radish")
    sow(book, SowDraft("radish", trays=3, place=SHELF, lot="R1", grams=40.0))
    did(book, "weight_off", [101, 102, 103])
    did(book, "light_on", [101, 102, 103])
    with pytest.raises(Refused, match="has left the rack yet"):
        batch_costs(book, 1)
    assert batch_page(book, "1").costs is None
    stand_at(book, moment(9))
    weigh(book, [101, 102], 600)
    discard(book, [103], "mould")
    parts = {one.part: one.money for one in batch_costs(book, 1).costs.parts}
    assert parts["seed"] == Decimal("1.50")  # 120 g at 12.50 per kg
    assert parts["medium"] == Decimal("1.05")
    assert parts["work"] == Decimal("2.40")  # two trays cut, 4 minutes each at 18 an hour
    # 3 bars of 19.3 W, lit 16 hours a day for 8 days: 7.41 kWh at 0.30
    assert parts["electricity"] == pytest.approx(Decimal("2.2234"), abs=Decimal("0.001"))
    assert parts["overhead"] is None
    page = batch_page(book, "1").costs
    assert page == batch_costs(book, 1).costs
    assert page is not None
    assert page.words.startswith("7.17, 2.391 per tray, 1.196 per 100 g")
    (crop,) = crop_costs(book).crops
    assert crop.income == Decimal(12)
    assert crop.lost_cost == crop.costs.per_tray
    undo(book)
    assert batch_costs(book, 1).costs.trays == 2


def test_a_first_rate_applies_from_the_books_first_day(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    sow(book, SowDraft("radish", trays=1, place=SHELF, at=moment(1, hour=7)))
    stand_at(book, moment(9))
    assert "from 2026-04-01" in set_rate(book, "medium", Decimal("0.35")).words
    assert "from 2026-04-09" in set_rate(book, "medium", Decimal("0.40")).words
    assert "from 2026-04-01" in set_rate(book, "medium", Decimal("0.50"), crop="radish").words
    weigh(book, [101], 300)
    parts = {one.part: one.money for one in batch_costs(book, 1).costs.parts}
    assert parts["medium"] == Decimal("0.50")


def test_rates_are_listed_by_what_holds(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    set_rate(book, "wage", Decimal(15), since=moment(1, month=3).date())
    set_rate(book, "wage", Decimal(18))
    set_rate(book, "wage", Decimal(20), since=moment(1, month=6).date())
    assert [one.amount for one in list_rates(book)] == [18, 20]
    with pytest.raises(Refused, match="too far away"):
        set_rate(book, "wage", Decimal(1), since=moment(1).date().replace(year=1999))
    with pytest.raises(Refused, match="no batch 7"):
        batch_costs(book, 7)


def test_seed_has_the_price_of_the_bag_that_it_came_from(tmp_path: Path) -> None:
    book = room_book(tmp_path)
    first = Bag("R1", "radish", 100, moment(1).date(), price=Decimal("1.00"))  # 10 per kg
    buy_seed(book, first)
    sow(book, SowDraft("radish", trays=2, place=SHELF, lot="R1", grams=40.0))  # 80 g at 10 per kg
    stand_at(book, moment(2))
    buy_seed(book, replace(first, grams=1000, bought=moment(2).date(), price=Decimal(20)))
    sow(
        book, SowDraft("radish", trays=2, place=SHELF, lot="r-1", grams=40.0)
    )  # 20 g of it, 60 g at 20
    weigh_seed(book, "R1", 500)  # what was spilt was of the open bag
    buy_seed(book, replace(first, grams=500, bought=moment(2).date(), price=None))
    sow(book, SowDraft("radish", trays=1, place=SHELF, lot="R1", grams=40.0))
    stand_at(book, moment(9))
    weigh(book, [101, 102, 103, 104, 105], 1500)
    seed = [
        next(one.money for one in batch_costs(book, batch).costs.parts if one.part == "seed")
        for batch in (1, 2, 3)
    ]
    assert seed == [Decimal("0.80"), Decimal("1.40"), Decimal("0.80")]
