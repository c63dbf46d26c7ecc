"""Trays per arm, and the distributions under everything."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import f, studentized_range

from logbook.growing.trials.distributions import range_critical, range_criticals, range_tail
from logbook.growing.trials.replicates import (
    DIFFERENCES,
    exact_trays,
    power_of,
    table,
    trays_per_arm,
    unlike_spreads,
)
from logbook.growing.trials.significance import ALIKE
from logbook.text import Refused


@pytest.mark.parametrize(
    ("effect", "exact", "trays"), [(0.5, 63.77, 64), (0.8, 25.52, 26), (1.0, 16.71, 17)]
)
def test_trays_per_arm_as_in_cohen(effect: float, exact: float, trays: int) -> None:
    """Cohen 1988 tables; the fractions by statsmodels' TTestIndPower (computed)."""
    assert exact_trays(effect) == pytest.approx(exact, abs=5e-3)
    assert trays_per_arm(1.0, effect) == trays


def test_a_gap_of_10_at_a_spread_of_8_needs_11() -> None:
    """11 trays give 79.6 %, which counts as 80 %."""
    assert trays_per_arm(8, 10) == 11
    assert power_of(11, 10 / 8) == pytest.approx(0.7963, abs=5e-5)


def test_the_table_falls_as_gaps_grow() -> None:
    trays = [row.trays_per_arm for row in table(8)]
    assert len(trays) == len(DIFFERENCES)
    assert trays == sorted(trays, key=lambda one: -(one or 0))


def test_a_gap_out_of_reach_is_none() -> None:
    assert trays_per_arm(100, 0.1) is None


@pytest.mark.parametrize(
    ("spread", "gap", "power", "arms"),
    [(0, 10, 0.8, 2), (8, -1, 0.8, 2), (8, math.nan, 0.8, 2), (8, 10, 1.0, 2), (8, 10, 0.01, 2),
     (8, 10, 0.8, 1)],
)  # fmt: skip
def test_bad_values_are_refused(spread: float, gap: float, power: float, arms: int) -> None:
    with pytest.raises(Refused):
        trays_per_arm(spread, gap, power, arms)


@settings(max_examples=20, deadline=None)
@given(st.floats(0.2, 20), st.integers(2, 12))
def test_the_trays_reach_the_power_and_one_less_does_not(effect: float, arms: int) -> None:
    trays = trays_per_arm(1.0, effect, arms=arms)
    assert trays is not None
    assert power_of(trays, effect, arms) >= 0.8 - 0.004 - 1e-6
    if trays > 2:
        assert power_of(trays - 1, effect, arms) < 0.8


@pytest.mark.parametrize("arms", [2, 3, 9, 40])
@pytest.mark.parametrize("df", [2, 5.3, 27, 18_000, math.inf])
def test_the_studentized_range_agrees_with_scipy(arms: int, df: float) -> None:
    for q in (0.5, 3.5, 9.0):
        assert range_tail(q, arms, df) == pytest.approx(studentized_range.sf(q, arms, df), abs=1e-7)
    critical = range_critical(0.05, arms, df)
    assert studentized_range.sf(critical, arms, df) == pytest.approx(0.05, abs=1e-5)


def test_many_critical_values_lie_on_the_exact_ones() -> None:
    dfs = [2.5 + at / 7 for at in range(40)]
    fitted = range_criticals(0.05, 12, dfs)
    assert all(
        fitted[df] == pytest.approx(range_critical(0.05, 12, df), rel=1e-6) for df in dfs[::13]
    )


@pytest.mark.parametrize("trays", [2, 3, 6, 20])
def test_how_often_like_arms_look_unlike_is_the_tail_of_f(trays: int) -> None:
    """Two sample variances of one normal population: their ratio is F(n−1, n−1), both ways round."""
    chance, dfs = unlike_spreads(trays)
    assert chance == pytest.approx(2 * f.sf(ALIKE**2, trays - 1, trays - 1))
    assert sum(weight for weight, _ in dfs) == pytest.approx(1)
    # Welch's df of two arms of n lies between n − 1 and 2 (n − 1); unlike spreads take it down
    most = (trays - 1) * (1 + ALIKE**2) ** 2 / (1 + ALIKE**4)
    assert all(trays - 1 < df < most for _, df in dfs)
