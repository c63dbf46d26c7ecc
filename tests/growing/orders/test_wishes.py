"""Standing lines and single orders become deliveries, day by day."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from logbook.growing.orders.customer import Customer, Mix, Order, Packed, Pause
from logbook.growing.orders.wishes import CropPart, Orders, deliveries_of
from logbook.growing.trays.chores import RoomHours

HOURS = RoomHours(ZoneInfo("Europe/London"))
CHEF, STALL = Customer(1, "the chef", "kitchen", minute=6 * 60), Customer(2, "a stall", "stall")
LINE = Order(10, 10, 1, 7, None, 6, 50.0, "tue,fri", None, date(2026, 12, 1), None)
FIRST, LAST = date(2026, 12, 1), date(2026, 12, 11)
"""A Tuesday, and the Friday of the next week."""


def days(orders: Orders) -> list[tuple[str, int]]:
    """On which days how many packs are wanted."""
    found = deliveries_of(orders, FIRST, LAST, HOURS)
    return [(f"{each.day:%d}", each.packs) for delivery in found for each in delivery.wishes]


def of(*rows: Order, pauses: tuple[Pause, ...] = (), packed: tuple[Packed, ...] = ()) -> Orders:
    """Orders of the chef."""
    return Orders({1: CHEF, 2: STALL}, {}, {10: rows}, pauses, packed)


def test_a_standing_line_comes_round_on_its_days_at_the_customers_hour() -> None:
    found = deliveries_of(of(LINE), FIRST, LAST, HOURS)

    assert [each.ready_at for each in found] == [
        datetime(2026, 12, day, 6, tzinfo=UTC) for day in (1, 4, 8, 11)
    ]
    assert found[0].wishes[0].parts == (CropPart(7, 300.0),)


def test_a_change_holds_from_its_day_and_the_past_stays() -> None:
    change = replace(LINE, entry=11, packs=8, since=date(2026, 12, 5))
    stop = replace(change, entry=12, gone=True, since=date(2026, 12, 9))

    assert days(of(LINE, change)) == [("01", 6), ("04", 6), ("08", 8), ("11", 8)]
    assert days(of(LINE, change, stop)) == [("01", 6), ("04", 6), ("08", 8)]
    assert days(of(replace(LINE, until=date(2026, 12, 8)))) == [("01", 6), ("04", 6), ("08", 6)]


def test_a_pause_leaves_standing_lines_out_and_no_single_order() -> None:
    pause = Pause(1, None, date(2026, 12, 4), date(2026, 12, 8))
    single = replace(LINE, weekdays="", since=date(2026, 12, 4), until=date(2026, 12, 4))

    assert days(of(LINE, pauses=(pause,))) == [("01", 6), ("11", 6)]
    assert days(of(LINE, pauses=(replace(pause, order=99),))) == days(of(LINE))
    assert days(of(single, pauses=(pause,))) == [("04", 6)]


def test_a_single_order_is_on_the_day_that_was_said_last() -> None:
    single = replace(LINE, weekdays="", since=date(2026, 12, 4), until=date(2026, 12, 4))
    moved = replace(single, entry=11, since=date(2026, 12, 5), until=date(2026, 12, 5))

    assert days(of(single, moved)) == [("05", 6)]
    assert days(of(single, replace(moved, gone=True))) == []


def test_a_mix_is_the_one_of_the_day_in_parts() -> None:
    mixes = {5: [Mix(5, "salad", date(2026, 11, 1), {7: 0.75, 8: 0.25}),
                 Mix(5, "salad", date(2026, 12, 8), {7: 0.5, 8: 0.5})]}  # fmt: skip
    line = replace(LINE, template=None, mix=5, weekdays="tue")
    orders = Orders({1: CHEF}, mixes, {10: [line]})

    first, second = deliveries_of(orders, FIRST, LAST, HOURS)

    assert first.wishes[0].parts == (CropPart(7, 225.0), CropPart(8, 75.0))
    assert second.wishes[0].parts == (CropPart(7, 150.0), CropPart(8, 150.0))


def test_what_is_packed_is_no_longer_open_and_a_stall_comes_last() -> None:
    packed = Packed(20, datetime(2026, 12, 1, tzinfo=UTC), "ab", 10, 1, 7, None, 2, 50.0, FIRST)
    stall = replace(LINE, id=11, entry=11, customer=2, minute=6 * 60)
    orders = Orders({1: CHEF, 2: STALL}, {}, {11: [stall], 10: [LINE]}, (), (packed,))

    (delivery,) = deliveries_of(orders, FIRST, FIRST, HOURS)

    assert [each.customer.name for each in delivery.wishes] == ["the chef", "a stall"]
    assert delivery.wishes[0].open == (CropPart(7, 200.0),)


def test_live_trays_are_counted_not_weighed() -> None:
    (delivery, *_) = deliveries_of(of(replace(LINE, packs=2, pack_grams=None)), FIRST, LAST, HOURS)
    assert delivery.wishes[0].parts == (CropPart(7, 0.0, 2),)
