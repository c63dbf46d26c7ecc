"""Arms two by two: the gap, how far it may be off, and the chance, with all pairs allowed for.

Tukey's comparisons with Kramer's standard error for unequal numbers; Games & Howell (1976,
Journal of Educational Statistics 1:113–125) where spreads differ. Looking at every pair with a
lone t test finds "differences" far too often; the studentized range allows for the looking.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations, islice
from typing import ClassVar

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.blocks import Blocked
from logbook.growing.trials.distributions import SIGNIFICANCE, range_criticals, range_tail
from logbook.growing.trials.one_way import Anova

ALL_PAIRS_UP_TO = 20
"""Past this many arms the heaviest arm is held against each of the others, and that is said."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Arm a cut gap_grams more than arm b; the true difference is from low to high (95 %, all pairs)."""

    keys: ClassVar = "a b gap_grams low high p gap_percent"

    a: str
    b: str
    gap_grams: float
    """a less b."""
    low: float
    """Lower bound of the difference, 95 %."""
    high: float
    p: float
    gap_percent: float | None
    """The gap as a share of the lighter arm's mean, in %."""


def _pairs(
    names: Sequence[str], means: Sequence[float], of: Callable[[int, int], tuple[float, float]]
) -> tuple[Pair, ...]:
    """Hold arms against one another; `of` says the variance of a gap in g² and its df."""
    order = sorted(range(len(means)), key=lambda at: -means[at])
    of_first = len(order) - 1 if len(order) > ALL_PAIRS_UP_TO else None
    every = [(i, j, *of(i, j)) for i, j in islice(combinations(order, 2), of_first)]
    limits = range_criticals(SIGNIFICANCE, len(means), {df for *_, df in every})
    pairs = []
    for i, j, variance, df in every:
        gap, error = means[i] - means[j], math.sqrt(variance / 2)
        reach, chance = limits[df] * error, range_tail(gap / error, len(means), df)
        percent = 100 * gap / means[j] if means[j] > 0 else None
        pairs.append(Pair(names[i], names[j], gap, gap - reach, gap + reach, chance, percent))
    return tuple(sorted(pairs, key=lambda pair: -pair.gap_grams))


def _means(arms: Sequence[Arm]) -> tuple[list[str], list[float]]:
    return [arm.name for arm in arms], [arm.mean or 0.0 for arm in arms]


def tukey(arms: Sequence[Arm], anova: Anova) -> tuple[Pair, ...]:
    """Compare all pairs with the one error of the analysis of variance."""
    shares = [anova.error / arm.n for arm in arms]
    return _pairs(*_means(arms), lambda i, j: (shares[i] + shares[j], anova.df_error))


def games_howell(arms: Sequence[Arm]) -> tuple[Pair, ...]:
    """Compare all pairs, each with its own two spreads; every arm has a spread above 0."""
    shares = [(arm.variance or 0.0) / arm.n for arm in arms]

    def of(i: int, j: int) -> tuple[float, float]:
        both = shares[i] + shares[j]
        df = both**2 / (shares[i] ** 2 / (arms[i].n - 1) + shares[j] ** 2 / (arms[j].n - 1))
        return both, df

    return _pairs(*_means(arms), of)


def block_pairs(blocked: Blocked) -> tuple[Pair, ...]:
    """Compare all pairs of a trial in blocks, by means adjusted for the blocks."""
    if blocked.anova is None:
        return ()
    error, df, shares = blocked.anova.error, blocked.anova.df_error, blocked.difference_variance
    return _pairs(blocked.names, blocked.adjusted, lambda i, j: (error * shares[i][j], df))
