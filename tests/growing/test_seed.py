"""How much of a seed lot is left, and what a count of seedlings says."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from scipy.stats import binomtest

from logbook.growing.seed.bags import Draw, LotStock, SaidBag, SaidWeight, first_in_first_out
from logbook.growing.seed.counted import Counted, below_words, wilson


def on(day: int, hour: int = 8) -> datetime:
    return datetime(2026, 4, day, hour, tzinfo=UTC)


def bag(day: int, grams: float, lot: str = "RA 1") -> SaidBag:
    return SaidBag(
        lot, "radish", grams, date(2026, 4, day), entry=day, at=on(day), by="ab", note=""
    )


def drawn(day: int, grams: float | None, trays: int = 2) -> Draw:
    return Draw(1, on(day), trays, grams, "radish")


@pytest.mark.parametrize(
    ("up", "sown", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ],
)
def test_the_worked_examples_of_newcombe_1998(up: int, sown: int, low: float, high: float) -> None:
    """R. G. Newcombe, Statistics in Medicine 17 (1998), table I, method 3; from memory."""
    assert wilson(up, sown) == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize("up", [0, 1, 37, 49, 50])
def test_wilsons_interval_is_scipys(up: int) -> None:
    theirs = binomtest(up, 50).proportion_ci(0.95, "wilson")
    assert wilson(up, 50) == pytest.approx((theirs.low, theirs.high), abs=1e-12)


def test_a_count_below_label_or_standard_says_so_and_how_sure_it_is() -> None:
    assert below_words("radish", Counted(100, 96), 95) == []
    assert below_words("sunflower", Counted(50, 46), 95) == [
        "92 % is below the 95 % on the label, but so few seeds can't tell; count more."
    ]
    assert below_words("sunflower", Counted(400, 340), 95) == [
        "85 % is below the 95 % on the label."
    ]
    legal, doubt = below_words("radish", Counted(50, 37))
    assert "75 %" in legal
    assert "count more" in doubt
    assert len(below_words("radish", Counted(400, 240))) == 1


def test_what_is_left_is_what_was_bought_less_what_was_sown_since() -> None:
    stock = LotStock("RA 1", UTC, (bag(2, 1000),), draws=(drawn(1, 300), drawn(2, 100)))
    assert stock.left_grams == 900
    assert LotStock("RA 1", UTC, draws=(drawn(1, 300),)).left_grams is None


def test_a_weighing_puts_it_right_and_a_second_bag_adds_to_it() -> None:
    weighed = (SaidWeight("RA 1", 340, 9, on(3)),)
    stock = LotStock("RA 1", UTC, (bag(1, 500),), weights=weighed, draws=(drawn(2, 100),))
    assert stock.left_grams == 340
    more = LotStock("RA 1", UTC, (bag(1, 500), bag(4, 500)), weights=weighed, draws=(drawn(5, 40),))
    assert more.left_grams == 800


def test_seed_of_which_nobody_said_how_much_leaves_at_most_so_much() -> None:
    stock = LotStock("RA 1", UTC, (bag(1, 500),), draws=(drawn(2, None), drawn(3, 100)))
    assert (stock.left_grams, stock.exact) == (400, False)
    weighed = LotStock("RA 1", UTC, (bag(1, 500),), (), (SaidWeight("RA 1", 90, 9, on(4)),),
                       stock.draws)  # fmt: skip
    assert (weighed.left_grams, weighed.exact) == (90, True)


def test_more_drawn_than_there_was_is_a_sentence() -> None:
    stock = LotStock("RA 1", UTC, (bag(1, 500),), draws=(drawn(2, 620),))
    assert stock.left_grams == -120
    (words,) = stock.cautions("metric")
    assert words.startswith("120 g more was sown from seed lot RA 1 than it held")


def test_the_oldest_bag_with_seed_in_it_is_first() -> None:
    empty = LotStock("A", UTC, (bag(1, 100, "A"),), draws=(drawn(2, 100),))
    old, new = (LotStock(name, UTC, (bag(day, 100, name),)) for name, day in (("B", 2), ("C", 3)))
    assert [each.lot for each in first_in_first_out([new, empty, old])] == ["B", "C"]
