"""How small the chance of Welch's test must be before two arms are said to differ.

Welch's t and F are too generous with few trays: with three trays beside four, and the three
spreading most, "5 %" is 6.3 %; with two beside five it is 10.5 %. For two arms the true rate of
false alarms can be worked out for any ratio of the true spreads, so the bar is put where even the
worst ratio keeps to WORST. From six trays per arm on that leaves the usual 5 %.

The rate: with A and B the two arms' shares of the variance of the gap, the sample variances'
sum is χ² with ν₁ + ν₂ degrees of freedom and independent of its parting, which is
Beta(ν₁/2, ν₂/2). Given the parting, Welch's degrees of freedom and its limit are fixed and the
rest is a Student t with ν₁ + ν₂; its tail is averaged over the parting. (B. L. Welch 1938, The
significance of the difference between two means when the population variances are unequal,
Biometrika 29:350–362, works out such rates the same way.)
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from logbook.growing.trials.distributions import nodes, special

CHANCE = 0.05
ALIKE = 1.6
"""Spreads (standard deviations) less unlike than this are taken as one where numbers are equal."""

WORST = 0.054
"""The false alarms that no two arms may pass, whatever their true spreads."""

ENOUGH = 12.0
"""Trays in the smaller arm from which on the usual 5 % keeps to WORST beside any number of trays."""


@lru_cache(maxsize=256)
def bar_of(fewest: float, most: float) -> float:
    """Give the chance that a result must stay below, for arms of so many trays, 2 or more."""
    if fewest >= ENOUGH or worst_rate(fewest, most, CHANCE) <= WORST:
        return CHANCE
    low, high = 0.0, CHANCE
    for _ in range(18):
        middle = (low + high) / 2
        if worst_rate(fewest, most, middle) > WORST:
            high = middle
        else:
            low = middle
    return low


def worst_rate(first: float, second: float, bar: float) -> float:
    """Give the highest false-alarm rate of two arms over all ratios of their true spreads."""
    import numpy as np

    parts = 1 / (1 + np.exp(-np.linspace(-6, 6, 33)))
    return float(false_alarm_rate(first, second, parts, bar).max())


def false_alarm_rate(first: float, second: float, part: Any, bar: float = CHANCE) -> Any:
    """Work out how often two alike arms are declared to differ.

    Args:
        first: trays of the first arm, 2 or more.
        second: trays of the second arm.
        part: the first arm's share (0 to 1) of the variance of the gap, σ₁²/n₁ over the sum, as
            an array.
        bar: the chance that Welch's test must stay below; equal numbers whose spreads look alike
            get the t test with one spread at CHANCE.

    Returns:
        The rate for each part, to about 1e-4.
    """
    import numpy as np

    functions = special()
    points, weights = nodes()
    df_first, df_second = first - 1, second - 1
    df = df_first + df_second
    share = functions.betaincinv(df_first / 2, df_second / 2, (points + 1) / 2)[None, :]
    known = np.atleast_1d(part)[:, None]
    of_first = known * share / df_first
    of_second = (1 - known) * (1 - share) / df_second
    error = of_first + of_second
    own = error**2 / (of_first**2 / df_first + of_second**2 / df_second)
    limit = -functions.stdtrit(own, bar / 2)
    if first == second:
        ratio = of_first / of_second
        alike = (ratio < ALIKE**2) & (ratio > ALIKE**-2)
        limit = np.where(alike, -functions.stdtrit(df, CHANCE / 2), limit)
    tails = 2 * functions.stdtr(df, -limit * np.sqrt(df * error))
    return (weights / 2 * tails).sum(axis=1)
