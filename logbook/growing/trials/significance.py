"""How often Welch's test of two arms is wrong, and how small its chance must be in view of that.

Welch's t is too generous with few trays: with three trays beside four, and the three spreading
most, "5 %" is 6.3 %; with two beside five it is 10.5 %. For two arms the true rate of false
alarms can be worked out for any ratio of the true spreads. It serves twice: the rate at the
spreads that are seen corrects the chance of two arms (`rate_at`), and with very few trays, whose
spreads say little, the bar is put where even the worst ratio keeps to WORST (`bar_of`).

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

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import SIGNIFICANCE, crossing, nodes, numpy, special

ALIKE = 1.6
"""Spreads (standard deviations) less unlike than this are taken as one where numbers are equal."""

WORST = 0.053
"""The false alarms that two arms of few trays may not pass, whatever their true spreads."""

WORST_CORRECTED = 0.0545
"""The same for two arms of four trays or more, whose corrected chance takes off a little more."""

SCARCE = 5
"""Trays in the smallest arm from which on the usual 5 % is asked for."""


@lru_cache(maxsize=256)
def threshold_of(fewest: int, most: int, arms: int = 2) -> float:
    """The chance that a result must stay below: trays of the smallest and the largest arm."""
    worst = WORST_CORRECTED if arms == 2 and fewest >= SCARCE - 1 else WORST
    if fewest >= SCARCE or worst_error_rate(fewest, most, SIGNIFICANCE) <= worst:
        return SIGNIFICANCE
    return crossing(lambda bar: worst_error_rate(fewest, most, bar) - worst, 1e-9, SIGNIFICANCE)


def corrected_p(first: Arm, second: Arm, chance: float) -> float:
    """How often Welch's chance is so small for two alike arms with these spreads, above 0."""
    shares = [(arm.variance or 0.0) / arm.n for arm in (first, second)]
    part = shares[0] / (shares[0] + shares[1])
    return float(type_one_error_rate(first.n, second.n, part, chance)[0])


def worst_error_rate(first: int, second: int, threshold: float) -> float:
    """The highest false-alarm rate of two arms over all ratios of their true spreads.

    Arms with equal numbers whose spreads look alike get the t test with one spread, as in the
    book's rule.
    """
    np = numpy()
    parts = 1 / (1 + np.exp(-np.linspace(-6, 6, 33)))
    alike = ALIKE if first == second else 0.0
    return float(type_one_error_rate(first, second, parts, threshold, alike).max())


def type_one_error_rate(
    first: int, second: int, part: Any, threshold: float = SIGNIFICANCE, alike: float = 0.0
) -> Any:
    """How often two alike arms of so many trays (2 or more) are declared to differ, to about 1e-4.

    Args:
        first: trays of the first arm.
        second: trays of the second arm.
        part: the first arm's share (0 to 1) of the variance of the gap, σ₁²/n₁ over the sum, one
            number or an array.
        threshold: the chance that Welch's test must stay below.
        alike: spreads less unlike than this get the t test with one spread instead.
    """
    np, functions = numpy(), special()
    points, weights = nodes()
    df_first, df_second = first - 1, second - 1
    df = df_first + df_second
    share = functions.betaincinv(df_first / 2, df_second / 2, (points + 1) / 2)[None, :]
    known = np.atleast_1d(part)[:, None]
    of_first = known * share / df_first
    of_second = (1 - known) * (1 - share) / df_second
    error = of_first + of_second
    own = error**2 / (of_first**2 / df_first + of_second**2 / df_second)
    limit = -functions.stdtrit(own, threshold / 2)
    if alike > 0:
        ratio = of_first / of_second
        near = (ratio < alike**2) & (ratio > alike**-2)
        limit = np.where(near, -functions.stdtrit(df, SIGNIFICANCE / 2), limit)
    tails = 2 * functions.stdtr(df, -limit * np.sqrt(df * error))
    return (weights / 2 * tails).sum(axis=1)
