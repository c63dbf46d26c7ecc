"""How many trays per arm would show a gap.

Two-sided 5 %, by the noncentral t (Cohen 1988, Statistical Power Analysis). With more than two
arms the best and the worst are held apart by Tukey's limit, which for two arms is the t test.
Below MANY trays per arm the book's own rule (see verdict) often takes each arm's own spread, and
with very few asks for a smaller chance, which shows less than the t test would; for two arms that
is reckoned with. Spread and gap are in one unit, usually % of the mean tray.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import ClassVar

from logbook.growing.trials.distributions import (
    SIGNIFICANCE,
    crossing,
    nodes,
    range_critical,
    special,
    t_critical,
    t_power,
)  # fmt: skip
from logbook.growing.trials.significance import ALIKE, threshold_of
from logbook.growing.trials.verdict import MANY
from logbook.text import Refused

USUAL_POWER = 0.8
NEAR = 0.004
"""A power that falls short by less than this counts as reached: with 11.09 trays worked out, a
twelfth tray in every arm would be sown for a third of a point."""

MOST = 10_000
"""Past this many trays per arm a trial is refused as out of reach."""

DIFFERENCES = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0)
"""Gaps of the small table, in % of the mean tray."""


@dataclass(frozen=True, slots=True)
class Replicates:
    """The trays per arm that show a gap with the asked power; None past MOST."""

    keys: ClassVar = "gap_percent=difference trays_per_arm"

    difference: float
    trays_per_arm: int | None


@dataclass(frozen=True, slots=True)
class ReplicatesNeeded:
    """Trays per arm that detect one difference."""

    keys: ClassVar = "*row spread_percent power_percent arms"

    row: Replicates
    spread_percent: float
    power_percent: float
    arms: int


@dataclass(frozen=True, slots=True)
class ReplicatesTable:
    """Trays per arm that detect each of several differences."""

    spread_percent: float
    power_percent: float
    arms: int
    gaps: tuple[Replicates, ...]


@lru_cache(maxsize=512)
def _limit(df: float, arms: int) -> float:
    if arms == 2:
        return t_critical(SIGNIFICANCE, df)
    return range_critical(SIGNIFICANCE, arms, df) / math.sqrt(2)


def power_of(trays: float, effect: float, arms: int = 2) -> float:
    """Chance that `trays` per arm show a true gap of `effect` spreads between two of the arms."""
    df = arms * (trays - 1)
    off = effect * math.sqrt(trays / 2)
    pooled = t_power(off, df, _limit(df, arms))
    if arms > 2 or trays >= MANY:
        return pooled
    unlike, dfs = unlike_spreads(trays)
    # two arms of a fraction of trays: a bar between those of the whole numbers
    low, high = math.floor(trays), math.ceil(trays)
    first, last = threshold_of(low, low), threshold_of(high, high)
    threshold = first + (last - first) * (trays - low)
    own = math.fsum(share * t_power(off, df, t_critical(threshold, one)) for share, one in dfs)
    return (1 - unlike) * pooled + unlike * own


def unlike_spreads(trays: float) -> tuple[float, list[tuple[float, float]]]:
    """The chance that two like arms' spreads look unlike, and shares of Welch's df then.

    The first variance as a share x of both is Beta((n−1)/2, (n−1)/2), independent of t, and
    Welch's df is (n−1)/(x² + (1−x)²).
    """
    half = (trays - 1) / 2
    edge = ALIKE**2 / (1 + ALIKE**2)
    alike_below = float(special().betainc(half, half, edge))
    points, weights = nodes(16)
    chances = alike_below + (1 - alike_below) * (points + 1) / 2
    shares = special().betaincinv(half, half, chances)
    dfs = (trays - 1) / (shares**2 + (1 - shares) ** 2)
    return 2 * (1 - alike_below), list(zip((weights / 2).tolist(), dfs.tolist(), strict=True))


def exact_trays(effect: float, power: float = USUAL_POWER, arms: int = 2) -> float | None:
    """The trays per arm, as a fraction of 2 or more, for a gap of `effect` spreads.

    None past MOST.
    """
    if power_of(MOST, effect, arms) < power:
        return None
    return crossing(lambda trays: power_of(trays, effect, arms) - power, 2.0, 4.0)


def trays_per_arm(
    spread: float, difference: float, power: float = USUAL_POWER, arms: int = 2
) -> int | None:
    """The fewest trays per arm (2 or more) that show a true `difference`; None past MOST.

    `spread` is the standard deviation from tray to tray, in the unit of the difference.

    Raises:
        Refused: spread or difference is not above 0, power not above 5 % and below 1, or one arm.
    """
    _above_0(spread, "spread")
    _above_0(difference, "difference")
    if not SIGNIFICANCE < power < 1:
        raise Refused("The power must be more than 5 % and less than 100 %; 80 % is usual.")
    if arms < 2:
        raise Refused("A comparison needs two arms or more.")
    whole = exact_trays(difference / spread, power - NEAR, arms)
    return None if whole is None else max(2, math.ceil(whole - 1e-6))


def _above_0(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise Refused(f"The {what} must be more than 0, like 8%.")


def table(
    spread: float, differences: Sequence[float] = DIFFERENCES, power: float = USUAL_POWER,
    arms: int = 2,
) -> tuple[Replicates, ...]:  # fmt: skip
    """The trays per arm for each gap, all in % of the mean tray."""
    return tuple(
        Replicates(difference, trays_per_arm(spread, difference, power, arms))
        for difference in differences
    )


def detectable_difference(
    spread: float, trays: int, power: float = USUAL_POWER, arms: int = 2
) -> float | None:
    """The true gap that so many trays per arm show with this power, in the unit of `spread`.

    None below two trays, where nothing can be shown.

    Raises:
        Refused: the spread is not above 0.
    """
    _above_0(spread, "spread")
    if trays < 2:
        return None
    return spread * crossing(lambda effect: power_of(trays, effect, arms) - power, 0.0, 1.0)
