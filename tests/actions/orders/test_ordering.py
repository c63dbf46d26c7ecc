"""Orders and customers as they are written: what is understood is said, the rest is refused whole."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from logbook.actions.book import Book
from logbook.actions.orders.customers import CustomerDraft, list_customers, pause, put_customer
from logbook.actions.orders.listing import list_orders
from logbook.actions.orders.mixes import list_mixes, put_mix, remove_mix
from logbook.actions.orders.ordering import OrderDraft, change_order, order, order_from, stop_order
from logbook.actions.orders.packing import pack_for, unpack
from logbook.actions.orders.wanted import wanted
from logbook.actions.trays.striking import undo
from logbook.text import Refused


def test_an_unknown_customer_is_made_and_said_so(book: Book) -> None:
    """The clock stands at Tuesday, 14 April 2026, 07:42."""
    done = order(book, OrderDraft("Bistro", "radish 500g fri"))

    assert (done.customer, done.crop, done.grams) == ("Bistro", "radish", 500)
    assert done.ready_at == datetime(2026, 4, 17, 6, tzinfo=UTC)
    assert done.words == "Bistro: radish 500 g, Fri 17 Apr 07:00"
    assert "Bistro is added as a new customer" in done.notices[0]
    undo(book)
    assert list_customers(book) == []
    assert list_orders(book).orders == ()


def test_a_customer_typed_behind_the_one_that_was_offered_is_meant(book: Book) -> None:
    assert order_from(book, "Bistro: Shop: radish 2 x 50g fri 07:00") == OrderDraft(
        " Shop", " radish 2 x 50g fri 07:00"
    )
    assert order_from(book, "Bistro: radish fri 07:00") == OrderDraft("Bistro", " radish fri 07:00")


def test_names_that_are_nearly_alike_are_not_taken_for_new_ones(book: Book) -> None:
    order(book, OrderDraft("Bistro", "radish 500g fri"))
    order(book, OrderDraft("  bistro ", "radish 200g fri"))

    with pytest.raises(Refused, match='Do you mean "Bistro"'):
        order(book, OrderDraft("Bistrot", "radish 200g fri"))
    order(book, OrderDraft("Café Adler", "radish 200g fri"))
    order(book, OrderDraft("Café Amsel", "radish 200g fri"))
    with pytest.raises(Refused, match='already a customer "Bistro"'):
        put_customer(book, CustomerDraft("BISTRO"), new=True)

    assert [each.name for each in list_customers(book)] == ["Bistro", "Café Adler", "Café Amsel"]
    assert len(list_orders(book).orders) == 4


@pytest.mark.parametrize(
    "text", ["radish 500g yesterday", "moonweed 500g fri", "radish 0g fri", "radish 500g"]
)
def test_a_refused_order_makes_no_customer(book: Book, text: str) -> None:
    with pytest.raises(Refused):
        order(book, OrderDraft("Bistro", text))
    assert list_customers(book) == []


def test_an_order_by_its_customer_and_crop_is_refused_where_there_are_two(book: Book) -> None:
    for text in ("radish 6 x 50g every tue", "radish 500g fri"):
        order(book, OrderDraft("Bistro", text))
    first, second = sorted(each.order for each in list_orders(book).orders)
    with pytest.raises(Refused, match=f"write {first} or {second}"):
        stop_order(book, "Bistro: radish")


def test_a_customers_hour_and_days_say_when(book: Book) -> None:
    put_customer(book, CustomerDraft("Bistro", days="fri, wed", hour="05:30"), new=True)

    done = order(book, OrderDraft("Bistro", "radish 2 x 50g", price="3.50"))

    assert done.ready_at == datetime(2026, 4, 15, 4, 30, tzinfo=UTC)
    assert list_orders(book).orders[0].price_per_pack == Decimal("3.50")


def test_a_standing_line_is_changed_and_stopped_from_a_day(book: Book) -> None:
    order(book, OrderDraft("Bistro", "radish 6 x 50g every tue,fri"))
    (line,) = list_orders(book).orders

    change_order(book, line.order, "radish 8 x 50g", since="fri")
    with pytest.raises(Refused, match="Say what changes"):
        change_order(book, line.order, "radish 8 x 50g")
    with pytest.raises(Refused, match="is past"):
        change_order(book, line.order, "radish 9 x 50g", since="yesterday")
    with pytest.raises(Refused, match="no coming order the chef: radish"):
        stop_order(book, "the chef: radish")
    stop_order(book, "bistro: Radish", since="24 Apr")

    with book.reading() as reading:
        found = wanted(reading, date(2026, 4, 14), date(2026, 5, 14))
    assert [(each.wishes[0].day.day, each.wishes[0].packs) for each in found] == [
        (14, 6), (17, 8), (21, 8),
    ]  # fmt: skip


def test_a_pause_has_an_end(book: Book) -> None:
    order(book, OrderDraft("Bistro", "radish 6 x 50g every fri"))

    with pytest.raises(Refused, match="needs an end"):
        pause(book, "Bistro", "today", None)
    with pytest.raises(Refused, match="on or after"):
        pause(book, "Bistro", "2026-05-01", "2026-04-20")
    done = pause(book, "bist", "fri", "20 Apr")

    assert done.words == "Bistro: nothing from Fri 17 Apr to Mon 20 Apr"
    assert list_orders(book).orders[0].ready_at == datetime(2026, 4, 24, 6, tzinfo=UTC)


def test_a_mix_gets_another_name_from_a_day_on(book: Book) -> None:
    for name in ("salad mix", "soup mix"):
        put_mix(book, name, "2 radish + 1 kale")
    order(book, OrderDraft("Bistro", "salad mix 4 x 30g every fri"))
    with pytest.raises(Refused, match='There is a mix "soup mix" already'):
        put_mix(book, "Soup mix", "", of="salad mix")
    with pytest.raises(Refused, match='There is no mix "sald mix"'):
        put_mix(book, "winter mix", "", of="sald mix")
    done = put_mix(book, "winter mix", "", of="salad mix")
    assert done.words == "winter mix, before salad mix: 67 % radish, 33 % kale"
    assert [each.name for each in list_mixes(book).mixes] == ["soup mix", "winter mix"]
    assert {line.crop for line in list_orders(book).orders} == {"winter mix"}


def test_a_mix_is_ordered_by_its_name(book: Book) -> None:
    with pytest.raises(Refused, match="two crops"):
        put_mix(book, "salad mix", "2 radish")
    with pytest.raises(Refused, match="twice"):
        put_mix(book, "salad mix", "2 radish + 1 radish")
    put_mix(book, "salad mix", "2 radish + kale 1")
    assert list_mixes(book).mixes[0].words == "67 % radish, 33 % kale"

    assert order(book, OrderDraft("Bistro", "salad mix 4 x 30g fri")).crop == "salad mix"

    with pytest.raises(Refused, match="live trays"):
        order(book, OrderDraft("Bistro", "2 trays salad mix fri"))
    remove_mix(book, "salad mix")
    with pytest.raises(Refused, match="no crop template"):
        order(book, OrderDraft("Bistro", "salad mix 4 x 30g fri"))


def test_what_is_packed_is_ticked_and_the_tick_taken_back(book: Book) -> None:
    order(book, OrderDraft("Bistro", "radish 6 x 50g fri"))
    number, day = list_orders(book).orders[0].order, date(2026, 4, 17)

    assert (
        pack_for(book, "Bistro", packs=4).words == "packed for Bistro, Fri 17 Apr: radish 4 × 50 g"
    )
    assert pack_for(book, "Bistro").words.endswith("radish 2 × 50 g")
    with pytest.raises(Refused, match="packed already"):
        pack_for(book, "Bistro", "radish")
    unpack(book, number, day)

    with book.reading() as reading:
        assert wanted(reading, day, day)[0].wishes[0].packed == 0


def test_an_order_sooner_than_the_crop_grows_is_written_and_said_to_be_short(book: Book) -> None:
    done = order(book, OrderDraft("Bistro", "radish 300g tomorrow"))
    (short,) = (each for each in done.notices if "short" in each)
    assert short.startswith("radish is 300 g short for Wed 07:00: sown now, it can be cut from")
    later = order(book, OrderDraft("Bistro", "radish 300g 12 may"))
    assert not any("short" in each for each in later.notices)
