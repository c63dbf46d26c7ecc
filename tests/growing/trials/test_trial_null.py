"""A short form of tests/bench/null_trials: what trials state of luck is true, and by the book's rule."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest

from logbook.growing.trials.arms import Tray
from logbook.growing.trials.judging import judge
from logbook.growing.trials.significance import type_one_error_rate
from tests.bench.null_trials import (
    arms_p,
    block_false_alarms,
    blocks_p,
    drawn,
    drawn_in_blocks,
    false_alarms,
    one_tray,
    open_threshold,
    power,
    weekly,
)

TRIALS = 4_000
"""With 4,000 trials a rate of 5 % strays by 0.34 points, one of 80 % by 0.63."""

LUCK = np.random.default_rng(5)


@pytest.mark.parametrize(
    "numbers", [(2, 2), (3, 3, 3), (5,) * 4, (4, 3, 3), (12, 4), (5, 6, 8), (10, 10)]
)
def test_the_rule_of_the_table_is_the_books_own(numbers: Sequence[int]) -> None:
    spreads = [1.0, *[2.0] * (len(numbers) - 1)]
    trays = drawn(LUCK, 5, numbers, spreads, apart=2.0)
    for at, p in enumerate(arms_p(trays).tolist()):
        judged = judge(Tray(str(arm), one) for arm, each in enumerate(trays) for one in each[at])
        assert judged.anova is not None
        assert judged.shown == (p < 0.05)
        if judged.design == "one way" or judged.shown:
            assert judged.anova.p == pytest.approx(p)


@pytest.mark.parametrize("shape", [(2, 3, 1), (3, 2, 3), (4, 4, 2)])
def test_the_rule_of_the_table_is_the_books_own_in_blocks(shape: tuple[int, int, int]) -> None:
    trays = drawn_in_blocks(LUCK, 4, shape, 1.0, apart=2.0)
    arms, blocks, _ = shape
    for trial, p in zip(trays, blocks_p(trays).tolist(), strict=True):
        judged = judge(
            Tray(str(arm), one, f"shelf {block}")
            for arm in range(arms)
            for block in range(blocks)
            for one in trial[arm, block]
        )
        assert judged.anova is not None
        assert judged.anova.p == pytest.approx(p)
        assert judged.shown == (p < 0.05)


@pytest.mark.parametrize("numbers", [(2, 2), (3, 3, 3), (4, 3, 3), (12, 4)])
def test_alike_arms_are_declared_different_5_times_in_100(numbers: Sequence[int]) -> None:
    assert abs(false_alarms(numbers, TRIALS // 2).counted - 5) < 2


def test_arms_that_spread_unlike_keep_to_it_from_five_unequal_numbers_on() -> None:
    assert false_alarms((6, 8), TRIALS, spreads=(3, 1)).counted < 6.4


def test_a_difference_that_varies_from_shelf_to_shelf_is_no_difference() -> None:
    """Judged by how trays differ within shelves this would be above 30 %."""
    assert abs(block_false_alarms((3, 4, 3), TRIALS, uneven=1.0).counted - 5) < 1.4


def test_looking_every_week_keeps_to_5_in_100() -> None:
    assert abs(weekly((3, 8, 2), TRIALS, None, "at the end").counted - 5) < 1.4
    assert weekly((3, 10, 2), TRIALS, open_threshold, "open").counted < 5.5
    assert weekly((2, 10, 2), TRIALS, lambda _: 0.05, "why").counted > 12


def test_one_tray_per_arm_knows_how_well_its_spread_is_known() -> None:
    assert abs(one_tray(4, 6, TRIALS).counted - 5) < 1.4
    assert one_tray(4, 6, TRIALS, claimed_df=math.inf).counted > 9


@pytest.mark.parametrize(("arms", "trays", "cell"), [(3, 2, 0), (2, 3, 0), (2, 4, 1), (3, 6, 2)])
def test_the_promised_difference_is_seen_8_times_in_10(arms: int, trays: int, cell: int) -> None:
    rate = power(arms, trays, TRIALS if cell else TRIALS // 4, cell=cell)
    assert rate.stated == pytest.approx(80)
    assert abs(rate.counted - 80) < 3


@pytest.mark.parametrize(
    ("first", "second", "spreads", "rate"),
    [
        # Counted in 20,000 drawn trials each (numpy's generator), so off by 0.0017 as a rule.
        (4, 3, (1, 3), 0.0611),
        (7, 5, (1, 2), 0.0546),
    ],
)
def test_the_false_alarm_rate_of_welch_is_what_is_counted(
    first: int, second: int, spreads: tuple[float, float], rate: float
) -> None:
    one, other = spreads[0] ** 2 / first, spreads[1] ** 2 / second
    worked_out = float(type_one_error_rate(first, second, one / (one + other))[0])
    assert worked_out == pytest.approx(rate, abs=0.004)
