"""Whether deliveries are covered: what lies cold, what grows, the nearest first; worked by hand."""

from __future__ import annotations

import random
from datetime import UTC, date, datetime, timedelta

import pytest
from scipy import stats

from logbook.growing.crops.chances import t_above
from logbook.growing.crops.luck import Guess, batch_weights, luck_of
from logbook.growing.crops.yields import Meant, chance_of
from logbook.growing.orders.cover import Cover, Stock, ToCut, cold_store, covers
from logbook.growing.orders.customer import Customer, Order
from logbook.growing.orders.wishes import CropPart, Delivery, Wish

NOW = datetime(2026, 12, 1, tzinfo=UTC)
RADISH = 7
SURE = luck_of(Guess(300, 1), ())


def at(days: float) -> datetime:
    """So many days after now."""
    return NOW + timedelta(days=days)


def wanted(
    days: float, grams: float, *, trays: int = 0, kind: str = "kitchen", packed: int = 0
) -> Delivery:
    """A delivery of one pack of radish, or of live trays."""
    day = date(2026, 12, 1)
    order = Order(1, 1, 1, RADISH, None, trays or 1, None if trays else grams, "", None, day, day)
    part = CropPart(RADISH, grams, trays)
    return Delivery(
        at(days), (Wish(at(days), day, Customer(1, "x", kind), order, (part,), None, packed),)
    )


def tray(number: int, start: float, by: float, batch: int = 1) -> ToCut:
    """A tray of 300 g that is cut in these days and keeps for three."""
    return ToCut(number, RADISH, at(start), at(by), at(by + 3), Meant(SURE, batch))


def of(
    deliveries: list[Delivery], stock: list[Stock] | None = None, trays: list[ToCut] | None = None
) -> list[Cover]:
    """How the only crop of each delivery is covered."""
    return [
        each
        for (each,) in covers(deliveries, stock or [], trays or [], {RADISH: 300}, NOW, {RADISH})
    ]


def test_the_nearest_delivery_takes_first_and_the_next_what_is_left() -> None:
    found = of(
        [wanted(1, 500), wanted(3, 500)],
        [Stock(RADISH, at(-1), at(5), 200)],
        [tray(1, 0, 2), tray(2, 0, 2)],
    )

    assert [(round(each.ready), round(each.growing)) for each in found] == [(200, 600), (0, 300)]
    assert [(round(each.short), round(each.over)) for each in found] == [(0, 300), (200, 0)]
    assert found[0].chance > 0.95
    assert found[1].chance < 0.05


def test_only_what_keeps_until_then_and_can_be_cut_by_then_counts() -> None:
    stock = [Stock(RADISH, at(-6), at(1), 400)]
    found = of([wanted(2, 300)], stock, [tray(1, 3, 5), tray(2, -9, -2)])

    assert (found[0].ready, found[0].growing, round(found[0].short)) == (0, 0, 300)
    assert found[0].chance == 0
    assert of([wanted(6, 300)], [], [tray(1, 3, 5)])[0].short == 0, (
        "cut on day 5, it keeps to day 8"
    )


def test_what_is_packed_is_no_longer_needed() -> None:
    found = of([wanted(1, 300, packed=1)])[0]
    assert (found.promised, found.packed, found.short, found.chance) == (300, 300, 0, 1)


def test_a_stall_is_promised_nothing_and_takes_nothing_from_others() -> None:
    stall, chef = of([wanted(1, 900, kind="stall"), wanted(2, 300)], [], [tray(1, 0, 2)])
    assert (stall.promised, stall.short, stall.chance) == (0, 0, 1)
    assert chef.short == 0


def test_live_trays_are_whole_ones() -> None:
    found = of(
        [wanted(1, 0, trays=2), wanted(2, 250)], [], [tray(1, 0, 3), tray(2, 0, 3), tray(3, 1.5, 4)]
    )

    assert (found[0].promised, round(found[0].growing), found[0].chance) == (600, 600, 1)
    assert (round(found[1].growing), found[1].short) == (300, 0)
    assert of([wanted(1, 0, trays=2)], [], [tray(1, 0, 3)])[0].chance == 0


def test_the_cold_store_gives_out_the_oldest_first() -> None:
    cut = [
        (RADISH, at(-5), 300.0, at(2)),
        (RADISH, at(-2), 300.0, at(5)),
        (RADISH, at(-9), 90.0, at(-2)),
    ]
    out = [(RADISH, at(-1), 400.0), (RADISH, at(-6), 500.0), (8, at(-1), 100.0)]

    (left,) = cold_store(cut, out, NOW)

    assert (left.at, left.grams) == (at(-2), 200)


def test_trays_of_one_sowing_share_their_luck() -> None:
    """3 kg of trays of 300 ± 36 g, half of the variance the batch's: 11 give 85 %, of 11 sowings 99 %.

    By hand: the sum's SD is √(0.5·36²·11² + 0.5·36²·11) = 292 g, and 300 g are to spare.
    """
    draw = random.Random(5)
    each = 36 / 2**0.5
    weights = [
        (batch, 300 + luck + draw.gauss(0, each), False)
        for batch in range(800)
        for luck in [draw.gauss(0, each)]
        for _ in range(4)
    ]
    luck = luck_of(None, batch_weights(weights))

    assert chance_of([Meant(luck, -1)] * 11, 3000) == pytest.approx(0.85, abs=0.02)
    assert chance_of([Meant(luck, -tray) for tray in range(11)], 3000) == pytest.approx(
        0.99, abs=0.01
    )
    assert chance_of([Meant(luck, -1, cut=100)], 200) == pytest.approx(0.5, abs=0.03)


@pytest.mark.parametrize("df", [0.7, 3, 33.3, 5000])
@pytest.mark.parametrize("t", [-30, -1, 0, 0.5, 5])
def test_tails_are_scipys(t: float, df: float) -> None:
    assert t_above(t, df) == pytest.approx(stats.t.sf(t, df), abs=1e-9)
