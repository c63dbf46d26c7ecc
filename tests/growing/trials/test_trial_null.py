"""A short form of the null trials of tests/bench: alike arms are seldom declared to differ."""

from __future__ import annotations

import pytest

from logbook.growing.trials.significance import type_one_error_rate
from tests.bench.null_trials import (
    block_false_alarms,
    false_alarms,
    one_tray_chance,
    power,
)

TRIALS = 1_000
"""With 1,000 trials a rate of 5 % strays by 0.7; four of these are 2.8 points."""


@pytest.mark.parametrize(
    ("numbers", "spreads"),
    [
        ((6, 6, 6), (1, 1, 1)),
        ((5, 6, 8), (1, 1, 1)),
        ((6, 6, 6), (1, 2, 3)),
        ((8, 6, 5), (1, 2, 3)),
    ],
)
def test_alike_arms_are_declared_different_about_5_times_in_100(
    numbers: tuple[int, ...], spreads: tuple[float, ...]
) -> None:
    rate = false_alarms("short", numbers, spreads, TRIALS, promised=True)
    assert abs(rate.counted - 5) < 2.8


def test_blocks_too() -> None:
    assert abs(block_false_alarms(3, 4, 1, TRIALS).counted - 5) < 2.8


def test_the_one_tray_chance_is_the_share_of_drawn_trials() -> None:
    rate = one_tray_chance(4, 3.1, TRIALS)
    assert abs(rate.counted - rate.promised) < 1.4


def test_claimed_power_is_the_share_of_gaps_seen() -> None:
    rate = power(8.0, 10.0, 2, TRIALS)
    assert abs(rate.counted - rate.promised) < 5


@pytest.mark.parametrize(
    ("first", "second", "spreads", "rate"),
    [
        # Counted in 20,000 drawn trials each (numpy's generator), so off by 0.0017 as a rule.
        (4, 3, (1, 3), 0.0611),
        (5, 5, (1, 1), 0.0467),
        (7, 5, (1, 2), 0.0546),
        (10, 10, (1, 2), 0.0507),
    ],
)
def test_the_false_alarm_rate_of_two_arms_is_what_is_counted(
    first: int, second: int, spreads: tuple[float, float], rate: float
) -> None:
    one, other = spreads[0] ** 2 / first, spreads[1] ** 2 / second
    worked_out = float(type_one_error_rate(first, second, one / (one + other))[0])
    assert worked_out == pytest.approx(rate, abs=0.004)
