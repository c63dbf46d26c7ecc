"""How often spreads look unlike by chance, and how often Welch's test of two arms is wrong.

Welch's t is too generous with few trays: with five beside four, and the four spreading most, "5 %"
is 6 %. For two arms the true rate of false alarms can be worked out for any ratio of the true
spreads; at the spreads that are seen it corrects the chance of two arms.

The rate: with A and B the two arms' shares of the variance of the difference, the sample variances'
sum is χ² with ν₁ + ν₂ degrees of freedom and independent of its parting, which is
Beta(ν₁/2, ν₂/2). Given the parting, Welch's degrees of freedom and its limit are fixed and the
rest is a Student t with ν₁ + ν₂; its tail is averaged over the parting. (B. L. Welch 1938, The
significance of the difference between two means when the population variances are unequal,
Biometrika 29:350–362, works out such rates the same way.)
"""

from functools import lru_cache
from typing import Any

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import SIGNIFICANCE, nodes, numpy, special

SCARCE = 5
"""Trays in the smallest arm below which an arm's own spread is seldom taken."""


@lru_cache(maxsize=512)
def chance_of_unlike(ratio: float, numbers: tuple[int, ...]) -> float:
    """How often alike arms of so many trays have spreads whose widest is `ratio` times the narrowest.

    Hartley's (1950, The maximum F-ratio as a short-cut test for heterogeneity of variance,
    Biometrika 37:308–312), for unlike numbers too: one arm is the narrowest, at each of its
    quantiles the others lie within the ratio above it.
    """
    np, functions = numpy(), special()
    points, weights = nodes()
    within = 0.0
    for at, number in enumerate(numbers):
        df = number - 1
        narrowest = functions.gammaincinv(df / 2, (points + 1) / 2) * 2 / df
        inside = np.ones_like(points)
        for other in (*numbers[:at], *numbers[at + 1 :]):
            half = (other - 1) / 2
            below = functions.gammainc(half, half * narrowest)
            inside *= functions.gammainc(half, half * narrowest * ratio**2) - below
        within += float((weights / 2 * inside).sum())
    return min(1.0, max(0.0, 1 - within))


def corrected_p(first: Arm, second: Arm, chance: float) -> float:
    """How often Welch's chance is so small for two alike arms with these spreads, above 0."""
    shares = [(arm.variance or 0.0) / arm.n for arm in (first, second)]
    part = shares[0] / (shares[0] + shares[1])
    return float(type_one_error_rate(first.n, second.n, part, chance)[0])


def type_one_error_rate(first: int, second: int, part: Any, threshold: float = SIGNIFICANCE) -> Any:
    """How often Welch's test declares two alike arms of 2 trays or more to differ, to about 1e-4.

    Args:
        first: trays of the first arm.
        second: trays of the second arm.
        part: the first arm's share (0 to 1) of the variance of the difference, σ₁²/n₁ over the sum,
            one number or an array.
        threshold: the chance that the test must stay below.
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
    tails = 2 * functions.stdtr(df, -limit * np.sqrt(df * error))
    return (weights / 2 * tails).sum(axis=1)
