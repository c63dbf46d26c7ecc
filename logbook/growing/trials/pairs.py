"""Arms two by two: the gap, how far it may be off, and the chance, with all pairs allowed for.

Tukey's comparisons with Kramer's standard error for unequal numbers; Games & Howell (1976,
Journal of Educational Statistics 1:113–125) where spreads differ. Looking at every pair with a
lone t test finds "differences" far too often; the studentized range allows for the looking.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.blocks import Blocked, standard_error
from logbook.growing.trials.distributions import SIGNIFICANCE, range_criticals, range_tail
from logbook.growing.trials.one_way import Anova

ALL_PAIRS_UP_TO = 20
"""Past this many arms the heaviest arm is held against each of the others, and that is said."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Arm a cut gap_grams more than arm b; the true gap lies in low..high (95 %, all pairs)."""

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


@dataclass(frozen=True, slots=True)
class _Difference:
    a: str
    b: str
    grams: float
    error: float
    df: float
    base: float


def _positions(means: Sequence[float]) -> Iterator[tuple[int, int]]:
    order = sorted(range(len(means)), key=lambda at: -means[at])
    if len(order) > ALL_PAIRS_UP_TO:
        yield from ((order[0], other) for other in order[1:])
        return
    for at, heavy in enumerate(order):
        yield from ((heavy, light) for light in order[at + 1 :])


def _judged(differences: list[_Difference], arms: int) -> tuple[Pair, ...]:
    """Turn gaps into pairs; the error of each is the standard error of the difference."""
    limits = range_criticals(SIGNIFICANCE, arms, {difference.df for difference in differences})
    chances = range_tail(
        [difference.grams / difference.error * math.sqrt(2) for difference in differences],
        arms,
        [difference.df for difference in differences],
    )
    pairs = []
    for difference, chance in zip(differences, chances, strict=True):
        reach = limits[difference.df] * difference.error / math.sqrt(2)
        percent = 100 * difference.grams / difference.base if difference.base > 0 else None
        pairs.append(
            Pair(
                difference.a,
                difference.b,
                difference.grams,
                difference.grams - reach,
                difference.grams + reach,
                chance,
                percent,
            )
        )
    return tuple(sorted(pairs, key=lambda pair: -pair.gap_grams))


def tukey(arms: Sequence[Arm], anova: Anova) -> tuple[Pair, ...]:
    """Compare all pairs with the one error of the analysis of variance."""
    means = [arm.mean or 0.0 for arm in arms]
    differences = [
        _Difference(
            arms[i].name,
            arms[j].name,
            means[i] - means[j],
            math.sqrt(anova.error * (1 / arms[i].n + 1 / arms[j].n)),
            anova.df_error,
            means[j],
        )
        for i, j in _positions(means)
    ]
    return _judged(differences, len(arms))


def games_howell(arms: Sequence[Arm]) -> tuple[Pair, ...]:
    """Compare all pairs, each with its own two spreads; every arm has a spread above 0."""
    means = [arm.mean or 0.0 for arm in arms]
    shares = [(arm.variance or 0.0) / arm.n for arm in arms]
    differences = []
    for i, j in _positions(means):
        both = shares[i] + shares[j]
        df = both**2 / (shares[i] ** 2 / (arms[i].n - 1) + shares[j] ** 2 / (arms[j].n - 1))
        differences.append(
            _Difference(
                arms[i].name, arms[j].name, means[i] - means[j], math.sqrt(both), df, means[j]
            )
        )
    return _judged(differences, len(arms))


def block_pairs(blocked: Blocked) -> tuple[Pair, ...]:
    """Compare all pairs of a trial in blocks, by means adjusted for the blocks."""
    if blocked.anova is None:
        return ()
    means = blocked.adjusted
    differences = [
        _Difference(
            blocked.names[i],
            blocked.names[j],
            means[i] - means[j],
            standard_error(blocked, i, j),
            blocked.anova.df_error,
            means[j],
        )
        for i, j in _positions(means)
    ]
    return _judged(differences, len(means))
