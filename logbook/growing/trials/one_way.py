"""One-way comparisons of arms: the analysis of variance, and Welch's when spreads differ.

Sources: Gomez & Gomez, Statistical Procedures for Agricultural Research (2nd ed. 1984), ch. 2;
B. L. Welch (1951), On the comparison of several mean values, Biometrika 38:330–336;
Krishnamoorthy, Lu & Mathew (2007), A parametric bootstrap approach for ANOVA with unequal
variances, Computational Statistics & Data Analysis 51:5731–5742 (the drawn check).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean
from typing import Any, ClassVar

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import f_tail, numpy

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
    if error <= 0:
        return None
    start = arms[0].weights[0]
    # around one weight, so that leading digits that all share do not cost accuracy
    shifted = [(arm.n, fmean(weight - start for weight in arm.weights)) for arm in arms]
    middle = math.fsum(n * mean for n, mean in shifted) / sum(arm.n for arm in arms)
    between = math.fsum(n * (mean - middle) ** 2 for n, mean in shifted)
    df_arm = len(arms) - 1
    f = between / df_arm / error
    return Anova(f, df_arm, df_error, f_tail(f, df_arm, df_error), error)


def welch(arms: Sequence[Arm]) -> Anova | None:
    """Welch's F of arms whose spreads may differ; None for an arm of one tray, or no spread."""
    if not all(arm.variance for arm in arms):
        return None
    numbers, variances = _figures(arms)
    start = arms[0].mean or 0.0
    means = numpy().array([(arm.mean or 0.0) - start for arm in arms])
    f, slack = map(float, _welch_f(means, variances, numbers))
    df_arm, df_error = len(arms) - 1, (len(arms) ** 2 - 1) / (3 * slack)
    return Anova(f, df_arm, df_error, f_tail(f, df_arm, df_error), pooled_error(arms)[0])


def bootstrap_p_value(arms: Sequence[Arm], f: float, draws: int = DRAWS) -> float:
    """Count how often Welch's F is at least f when trials of equal means are drawn.

    The drawn trials have these arms' numbers and spreads and normal weights; the seed is kept, so
    the answer is the same each time. A standard error of the drawing is added. Welch's own
    formula is too generous with few trays.
    """
    np = numpy()
    luck = np.random.default_rng(20_001)
    numbers, variances = _figures(arms)
    count = len(arms)
    draws = max(2_000, min(draws, 4_000_000 // count))
    means = luck.standard_normal((draws, count)) * np.sqrt(variances / numbers)
    spreads = variances * luck.chisquare(numbers - 1, (draws, count)) / (numbers - 1)
    share = float((_welch_f(means, spreads, numbers)[0] >= f).mean())
    return min(1.0, share + math.sqrt(share * (1 - share) / draws))


def _figures(arms: Sequence[Arm]) -> tuple[Any, Any]:
    np = numpy()
    return np.array([float(arm.n) for arm in arms]), np.array([arm.variance for arm in arms])


def _welch_f(means: Any, variances: Any, numbers: Any) -> tuple[Any, Any]:
    """F along the last axis (arms), and the sum that its error's degrees of freedom come from."""
    count = len(numbers)
    weights = numbers / variances
    whole = weights.sum(axis=-1, keepdims=True)
    middle = (weights * means).sum(axis=-1, keepdims=True) / whole
    between = (weights * (means - middle) ** 2).sum(axis=-1) / (count - 1)
    slack = ((1 - weights / whole) ** 2 / (numbers - 1)).sum(axis=-1)
    return between / (1 + 2 * (count - 2) / (count**2 - 1) * slack), slack
