"""Trays per arm, and the distributions under everything."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import f, ncf, studentized_range

from logbook.growing.trials.distributions import (
    f_power,
    range_critical,
    range_criticals,
    range_tail,
)
from logbook.growing.trials.replicates import (
    DIFFERENCES,
    detectable_difference,
    power_of,
    table,
    trays_per_arm,
)
from logbook.growing.trials.significance import chance_of_unlike
from logbook.text import Refused


@pytest.mark.parametrize(("effect", "trays"), [(0.5, 64), (0.8, 26), (1.0, 17)])
def test_trays_per_arm_as_in_cohen(effect: float, trays: int) -> None:
    """Cohen 1988 tables."""
    assert trays_per_arm(1.0, effect) == trays


@pytest.mark.parametrize("above", [1, 2, 5])
@pytest.mark.parametrize("below", [1, 3, 24])
@pytest.mark.parametrize("off", [0.0, 0.7, 12.0, 60.0])
def test_the_power_of_f_agrees_with_scipy(above: int, below: int, off: float) -> None:
    limit = f.isf(0.05, above, below)
    known = ncf.sf(limit, above, below, off) if off else 0.05
    assert f_power(off, above, below) == pytest.approx(known, abs=1e-7)


@pytest.mark.parametrize(
    ("arms", "trays", "effect", "power"), [(3, 6, 2.0, 0.907501), (4, 5, 1.5, 0.563498),
                                           (6, 3, 2.8, 0.791962), (3, 12, 1.0, 0.674947)],
)  # fmt: skip
def test_the_power_of_one_arm_apart_as_in_statsmodels(
    arms: int, trays: int, effect: float, power: float
) -> None:
    """FTestAnovaPower of statsmodels 0.15 (computed); the rule's own spreads take off up to 2 points."""
    off = trays * effect**2 * (arms - 1) / arms
    assert f_power(off, arms - 1, arms * (trays - 1)) == pytest.approx(power, abs=2e-6)
    assert power - 0.02 < power_of(trays, effect, arms) <= power


def test_a_difference_of_10_at_a_spread_of_8_needs_11() -> None:
    """11 trays give 79.6 %, which counts as 80 %."""
    assert trays_per_arm(8, 10) == 11
    assert power_of(11, 10 / 8) == pytest.approx(0.7963, abs=6e-4)


def test_blocks_are_reckoned_by_how_the_difference_varies_between_them() -> None:
    """The F of 3 arms in 4 blocks has 2 and 6 degrees of freedom, whatever trays a cell has."""
    for cell in (1, 3):
        seen = detectable_difference(8, 4 * cell, arms=3, cell=cell)
        assert seen is not None
        off = 4 * cell * (seen / 8) ** 2 * 2 / 3
        assert ncf.sf(f.isf(0.05, 2, 6), 2, 6, off) == pytest.approx(0.8, abs=1e-6)
        assert trays_per_arm(8, seen + 1e-6, arms=3, cell=cell) == 4 * cell
    assert detectable_difference(8, 3, arms=3, cell=3) is None


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
    assert power_of(trays, effect, arms) >= 0.8 - 0.0045 - 1e-6
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
def test_how_often_like_arms_look_unlike(trays: int) -> None:
    """Two arms by F(n−1, n−1) both ways round; Hartley's 5 % points of more (Biometrika tables)."""
    assert chance_of_unlike(1.6, (trays, trays)) == pytest.approx(
        2 * f.sf(1.6**2, trays - 1, trays - 1), abs=1e-5
    )
    assert chance_of_unlike(math.sqrt(15.5), (5, 5, 5)) == pytest.approx(0.05, abs=5e-4)
    assert chance_of_unlike(math.sqrt(20.6), (5, 5, 5, 5)) == pytest.approx(0.05, abs=5e-4)
