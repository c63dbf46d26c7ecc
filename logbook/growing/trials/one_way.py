"""One-way comparisons of arms: the analysis of variance, and Welch's when spreads differ.

Sources: Gomez & Gomez, Statistical Procedures for Agricultural Research (2nd ed. 1984), ch. 2;
B. L. Welch (1951), On the comparison of several mean values, Biometrika 38:330–336;
Krishnamoorthy, Lu & Mathew (2007), A parametric bootstrap approach for ANOVA with unequal
variances, Computational Statistics & Data Analysis 51:5731–5742 (the drawn check).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import f_tail

DRAWS = 20_000
"""Trials drawn for the check of Welch's chance: its standard error is 0.15 points at 5 %."""


@dataclass(frozen=True, slots=True)
class Anova:
    """An F test of arms: F, its two degrees of freedom, its chance, error mean square in g²."""

    keys: ClassVar = "f df_arm df_error p"

    f: float
    df_arm: float
    df_error: float
    p: float
    error: float


def pooled_error(arms: Sequence[Arm]) -> tuple[float, int]:
    """The mean square within arms in g² and its degrees of freedom (0.0 and 0 for none)."""
    df = sum(arm.n - 1 for arm in arms)
    within = math.fsum((arm.variance or 0.0) * (arm.n - 1) for arm in arms)
    return (within / df if df > 0 else 0.0), df


def one_way(arms: Sequence[Arm]) -> Anova | None:
    """Analyse the variance of two or more arms with weights; one error for all.

    None when nothing varies within the arms, or when no arm has a second tray.
    """
    error, df_error = pooled_error(arms)
    if df_error == 0 or error <= 0:
        return None
    start = arms[0].weights[0]
    total = sum(arm.n for arm in arms)
    shifted = [(arm.n, _mean(arm) - start) for arm in arms]
    middle = math.fsum(n * mean for n, mean in shifted) / total
    between = math.fsum(n * (mean - middle) ** 2 for n, mean in shifted)
    df_arm = len(arms) - 1
    f = between / df_arm / error
    return Anova(f, df_arm, df_error, f_tail(f, df_arm, df_error), error)


def welch(arms: Sequence[Arm]) -> Anova | None:
    """Compare arms whose spreads may differ, by Welch's F.

    None when an arm has fewer than two trays or no spread at all.
    """
    variances = [arm.variance or 0.0 for arm in arms]
    if min(variances) <= 0:
        return None
    count = len(arms)
    start = _mean(arms[0])
    means = [_mean(arm) - start for arm in arms]
    weights = [arm.n / variance for arm, variance in zip(arms, variances, strict=True)]
    whole = math.fsum(weights)
    middle = math.fsum(w * m for w, m in zip(weights, means, strict=True)) / whole
    between = math.fsum(w * (m - middle) ** 2 for w, m in zip(weights, means, strict=True))
    slack = math.fsum(
        (1 - w / whole) ** 2 / (arm.n - 1) for w, arm in zip(weights, arms, strict=True)
    )
    f = between / (count - 1) / (1 + 2 * (count - 2) / (count**2 - 1) * slack)
    df_error = (count**2 - 1) / (3 * slack)
    return Anova(f, count - 1, df_error, f_tail(f, count - 1, df_error), pooled_error(arms)[0])


def bootstrap_p_value(arms: Sequence[Arm], f: float, draws: int = DRAWS) -> float:
    """Count how often Welch's F is at least f when trials of equal means are drawn.

    The drawn trials have these arms' numbers and spreads and normal weights; the seed is kept, so
    the answer is the same each time. A standard error of the drawing is added. Welch's own
    formula is too generous with few trays.
    """
    import numpy as np

    luck = np.random.default_rng(20_001)
    numbers = np.array([arm.n for arm in arms], dtype=float)
    variances = np.array([arm.variance for arm in arms], dtype=float)
    count = len(arms)
    draws = max(2_000, min(draws, 4_000_000 // count))
    means = luck.standard_normal((draws, count)) * np.sqrt(variances / numbers)
    spreads = variances * luck.chisquare(numbers - 1, (draws, count)) / (numbers - 1)
    weights = numbers / spreads
    whole = weights.sum(axis=1, keepdims=True)
    middle = (weights * means).sum(axis=1, keepdims=True) / whole
    between = (weights * (means - middle) ** 2).sum(axis=1) / (count - 1)
    slack = ((1 - weights / whole) ** 2 / (numbers - 1)).sum(axis=1)
    drawn = between / (1 + 2 * (count - 2) / (count**2 - 1) * slack)
    share = float((drawn >= f).mean())
    return min(1.0, share + math.sqrt(share * (1 - share) / draws))


def _mean(arm: Arm) -> float:
    assert arm.mean is not None  # noqa: S101 - only arms with weights are compared
    return arm.mean
