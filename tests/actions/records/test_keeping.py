"""Reviews, assurances, the worksheet of the exemption and the organic balance."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for
from logbook.actions.packs.withdrawing import pack_mix, take_back
from logbook.actions.records.assurances import assure, list_assurances
from logbook.actions.records.covered import set_sales, worksheet
from logbook.actions.records.organic import organic
from logbook.actions.records.reviewing import review, review_weeks
from logbook.actions.room.cleaning import UseDraft, use_solution
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.room.upkeep import check
from logbook.actions.seed.writing import buy_seed, weigh_seed
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.actions.yields.listing import Span
from logbook.growing.records.exemption import SalesYear, Worksheet
from logbook.growing.seed.bags import Bag
from logbook.text import Refused
from tests.actions.room_book import SHELF, moment, room_book, stand_at


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A room on Wednesday 1 April 2026."""
    return room_book(tmp_path)


def test_a_week_is_signed_by_who_writes_and_what_comes_later_is_told(book: Book) -> None:
    use_solution(book, UseDraft("floor", "sweep"))
    check(book, "cold store", 7.0)
    week = review_weeks(book).weeks[0]
    assert (week.week, week.words) == (date(2026, 3, 30), "1 cleaning, 1 check, 1 out of its limit")
    assert week.unsigned
    stand_at(book, moment(1, 9))
    review(book)
    signed = review_weeks(book).weeks[0]
    assert signed.review is not None
    assert (signed.review.by, signed.since, signed.unsigned) == ("ab", 0, False)
    stand_at(book, moment(2))
    use_solution(book, UseDraft("floor", "sweep"))
    assert review_weeks(book).weeks[0].since == 1
    undo(book)
    assert not review_weeks(book).weeks[0].unsigned
    with pytest.raises(Refused, match="still to come"):
        review(book, date(2026, 4, 6))


def test_an_assurance_holds_for_a_year(book: Book) -> None:
    put_customer(book, CustomerDraft("Bistro"), new=True)
    assert list_assurances(book) == ()
    assure(book, "Bistro", "washes what is cut", date(2026, 3, 1))
    (one,) = list_assurances(book)
    assert one.holds
    assert one.until == date(2027, 3, 1)
    stand_at(book, moment(2, month=3).replace(year=2027))
    (one,) = list_assurances(book)
    assert not one.holds
    with pytest.raises(Refused, match="was signed"):
        assure(book, "Bistro", "washes", date(2030, 1, 1))


def years(*told: tuple[int, int]) -> Worksheet:
    first = 2026 - len(told)
    return Worksheet(
        2026,
        tuple(
            SalesYear(first + at, Decimal(sold), Decimal(direct))
            for at, (sold, direct) in enumerate(told)
        ),
    )


@pytest.mark.parametrize(
    ("told", "exempt"),
    [
        # 21 CFR 112.5(a): to qualified end users more than to all others, and less than 500,000 in all
        (((10_000, 5_000),) * 3, False),
        (((10_000, 5_001),) * 3, True),
        (((500_000, 499_000),) * 3, False),
        (((499_999, 499_000),) * 3, True),
        (((90_000, 0), (1_000, 1_000), (100_000, 100_000)), True),  # the average counts
    ],
)
def test_both_conditions_of_the_exemption_hold_on_average(
    told: tuple[tuple[int, int], ...], exempt: bool
) -> None:
    sheet = years(*told)
    assert sheet.exempt is exempt
    assert sheet.words[-1].endswith("Ask your authority.")


def test_a_year_that_is_not_known_leaves_it_open(book: Book) -> None:
    set_sales(book, SalesYear(2025, Decimal(900), Decimal(500), Decimal(900)))
    sheet = worksheet(book)
    assert (sheet.exempt, sheet.missing) == (None, (2023, 2024))
    assert sheet.words[0] == "Not known yet: sales of 2023, 2024 are missing."
    with pytest.raises(Refused, match="than in all"):
        set_sales(book, SalesYear(2024, Decimal(900), Decimal(901)))
    with pytest.raises(Refused, match="up to 2026"):
        set_sales(book, SalesYear(2027, Decimal(900), Decimal(0)))


def test_little_produce_is_not_covered_at_all() -> None:
    """21 CFR 112.4(a): 25,000 or less a year on average."""
    sheet = years(*((25_000, 20_000),) * 3)
    full = replace(sheet, years=tuple(replace(each, produce=each.sold) for each in sheet.known))
    assert full.not_covered
    assert not replace(full, all_produce=Decimal(24_999)).not_covered


def test_deliveries_tell_sales_where_nobody_typed_them(book: Book) -> None:
    """A kitchen counts as an end user once somebody said that it is near."""
    order(book, OrderDraft("Bistro", "radish 2 x 50g tomorrow", "4.50"))
    sow(book, SowDraft("radish", trays=2, place=SHELF))
    pack_for(book, "Bistro", "radish")
    stand_at(book, moment(1, month=1).replace(year=2027))
    (year,) = worksheet(book).known
    assert (year.sold, year.to_end_users, year.unknown) == (
        Decimal("9.00"),
        Decimal(0),
        ("Bistro",),
    )
    put_customer(book, CustomerDraft("Bistro", near=True), new=False)
    (year,) = worksheet(book).known
    assert (year.to_end_users, year.unknown) == (Decimal("9.00"), ())


def test_organic_seed_and_lots_balance_over_a_span(book: Book) -> None:
    bought = book.today() - timedelta(days=2)
    buy_seed(book, Bag("ORG-1", "radish", 1000.0, bought, organic=True))
    buy_seed(book, Bag("PLAIN", "radish", 1000.0, bought))
    sow(book, SowDraft("radish", trays=2, place=SHELF, lot="ORG-1", grams=30.0))
    sow(book, SowDraft("radish", trays=1, place=SHELF, lot="PLAIN", grams=30.0))
    stand_at(book, moment(10))
    weigh_seed(book, "ORG-1", 930.0)
    weigh(book, [101], 240.0)
    weigh(book, [102], 260.0)
    found = organic(book)
    (seed,), (lot,) = found.seed, found.lots
    assert (seed.start_grams, seed.bought_grams, seed.sown_grams) == (0.0, 1000.0, 60.0)
    assert (seed.left_grams, seed.off_grams) == (930.0, -10.0)
    assert (lot.in_grams, lot.left_grams, lot.all_organic) == (500.0, 500.0, True)
    assert "No organic certificate" in found.cautions[0]
    change_room(book, RoomDraft(certificate="17, Good Soil", certified_until=date(2026, 4, 9)))
    assert "ran out" in organic(book).cautions[0]
    weigh(book, [103], 100.0)  # of other seed, into the same lot
    assert "not organic" in organic(book).cautions[-1]


def test_what_came_back_is_balanced_once_and_a_mix_is_as_organic_as_what_it_took(
    book: Book,
) -> None:
    buy_seed(book, Bag("ORG-1", "radish", 1000.0, book.today(), organic=True))
    sow(book, SowDraft("radish", trays=2, place=SHELF, lot="ORG-1", grams=30.0))
    buy_seed(book, Bag("ORG-2", "pea", 1000.0, book.today(), organic=True))
    sow(book, SowDraft("pea", trays=1, place=SHELF, lot="ORG-2", grams=30.0))
    put_mix(book, "Salad", "1 radish + 1 pea")
    put_customer(book, CustomerDraft("Bistro"), new=True)
    stand_at(book, moment(10))
    weigh(book, [101, 102], 500.0)
    weigh(book, [103], 200.0)
    lot = organic(book).lots[0]
    order(book, OrderDraft("Bistro", "radish 2 x 50g tomorrow"))
    pack_for(book, "Bistro", "radish")
    take_back(book, "Bistro", lot.code, 50.0)
    lot = organic(book).lots[0]
    assert (lot.sold_grams, lot.waste_grams) == (50.0, 50.0)
    assert lot.left_grams == 400.0
    stand_at(book, moment(11))
    pack_mix(book, "Salad", 100.0)
    (mixed,) = organic(book, Span(since=book.today())).lots
    assert (mixed.crop, mixed.in_grams, mixed.all_organic) == ("Salad", 100.0, True)
