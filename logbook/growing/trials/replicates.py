"""How many trays per arm would show a difference, by the rule that judges a trial.

The difference is that of one arm from all the others, which are alike; it is seen when the overall
F test falls below 5 % (noncentral F; Cohen 1988, Statistical Power Analysis, ch. 8). Spread and
difference are in one unit, usually % of the mean tray.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.trials.distributions import SIGNIFICANCE, crossing, f_power
from logbook.text import Refused

USUAL_POWER = 0.8
NEAR = 0.0045
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


OWN_SPREADS = 0.8
"""Welch's F, taken by chance where spreads look unlike, sees about what F with this part of its
largest degrees of freedom would: fitted to drawn trials, to 2 points of power."""


def power_of(trays: float, effect: float, arms: int = 2, cell: int = 0) -> float:
    """Chance that `trays` per arm show a true difference of `effect` spreads of one arm from the rest.

    `cell` is how many of them stand in each block; 0 for no blocks. With blocks the error is how the
    arms' differences vary from block to block, by (arms − 1)(blocks − 1) degrees of freedom.
    """
    off = trays * effect**2 * (arms - 1) / arms
    if cell:
        return f_power(off, arms - 1, (arms - 1) * (trays / cell - 1))
    pooled = f_power(off, arms - 1, arms * (trays - 1))
    welch = OWN_SPREADS * (arms + 1) * arms * (trays - 1) / (3 * (arms - 1))
    own = f_power(off, arms - 1, max(1.0, welch))
    return (1 - SIGNIFICANCE) * pooled + SIGNIFICANCE * own


def trays_per_arm(
    spread: float, difference: float, power: float = USUAL_POWER, arms: int = 2, cell: int = 0
) -> int | None:
    """The fewest trays per arm (2 or more) that show a true `difference`; None past MOST.

    `spread` is the standard deviation from tray to tray, in the unit of the difference. Raises
    Refused where one of them is not above 0, power not above 5 % and below 1, or there is one arm.
    """
    _above_0(spread, "spread")
    _above_0(difference, "difference")
    if not SIGNIFICANCE < power < 1:
        raise Refused("The power must be more than 5 % and less than 100 %; try 80 %.")
    if arms < 2:
        raise Refused("A comparison needs two arms or more.")
    step = max(1, cell)
    steps = range(2, MOST // step + 1)
    at = bisect_left(
        steps, power - NEAR,
        key=lambda times: power_of(times * step, difference / spread, arms, cell),
    )  # fmt: skip
    return steps[at] * step if at < len(steps) else None


def _above_0(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise Refused(f"The {what} must be more than 0, like 8%.")


def table(
    spread: float, differences: Sequence[float] = DIFFERENCES, power: float = USUAL_POWER,
    arms: int = 2, cell: int = 0,
) -> tuple[Replicates, ...]:  # fmt: skip
    """The trays per arm for each difference, all in % of the mean tray."""
    return tuple(
        Replicates(difference, trays_per_arm(spread, difference, power, arms, cell))
        for difference in differences
    )


def detectable_difference(
    spread: float, trays: int, power: float = USUAL_POWER, arms: int = 2, cell: int = 0
) -> float | None:
    """The true gap that so many trays per arm show with this power, in the unit of `spread`.

    None below two trays, where nothing can be shown.
    """
    _above_0(spread, "spread")
    if trays < 2 * max(1, cell):
        return None
    return spread * crossing(lambda effect: power_of(trays, effect, arms, cell) - power, 0.0, 1.0)
