"""How many trays per arm would show a gap, and how large a gap some trays can show.

Two-sided 5 %, by the noncentral t (Cohen 1988, Statistical Power Analysis). With more than two
arms the best and the worst are held apart by Tukey's limit, which for two arms is the t test.
Spread and gap are in one unit, usually % of the mean tray.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.growing.trials.distributions import range_critical, t_critical, t_power
from logbook.text import Refused

CHANCE = 0.05
USUAL_POWER = 0.8
NEAR = 0.004
"""A power that falls short by less than this counts as reached: with 11.09 trays worked out, a
twelfth tray in every arm would be sown for a third of a point."""

MOST = 10_000
"""Past this many trays per arm a trial is refused as out of reach."""

GAPS = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0)
"""Gaps of the small table, in % of the mean tray."""


@dataclass(frozen=True, slots=True)
class Repeats:
    """The trays per arm that show a gap with the asked power; None past MOST."""

    gap: float
    trays_per_arm: int | None


def _limit(df: float, arms: int) -> float:
    if arms == 2:
        return t_critical(CHANCE, df)
    return range_critical(CHANCE, arms, df) / math.sqrt(2)


def power_of(trays: float, effect: float, arms: int = 2) -> float:
    """Chance that `trays` per arm show a true gap of `effect` spreads between two of the arms."""
    df = arms * (trays - 1)
    return t_power(effect * math.sqrt(trays / 2), df, _limit(df, arms))


def exact_trays(effect: float, power: float = USUAL_POWER, arms: int = 2) -> float | None:
    """Give the trays per arm, as a fraction of 2 or more, for a gap of `effect` spreads.

    None past MOST.
    """
    if power_of(MOST, effect, arms) < power:
        return None
    low = high = 2.0
    while power_of(high, effect, arms) < power:
        low, high = high, high * 2
    for _ in range(60):
        middle = (low + high) / 2
        if power_of(middle, effect, arms) < power:
            low = middle
        else:
            high = middle
        if high - low < 1e-7 * high:
            break
    return high


def trays_per_arm(
    spread: float, gap: float, power: float = USUAL_POWER, arms: int = 2
) -> int | None:
    """Give the fewest trays per arm (2 or more) that show `gap` with this power.

    Args:
        spread: standard deviation from tray to tray, above 0.
        gap: true difference to be seen, in the same unit, above 0.
        power: chance of seeing it, above 5 % and below 1.
        arms: arms in the trial.

    Returns:
        The trays per arm, or None when MOST would not do.

    Raises:
        Refused: a value is out of its range.
    """
    for value, what in ((spread, "spread"), (gap, "gap")):
        if not (math.isfinite(value) and value > 0):
            raise Refused(f"The {what} must be more than 0, like 8%.")
    if not CHANCE < power < 1:
        raise Refused("The power must be more than 5 % and less than 100 %; 80 % is usual.")
    if arms < 2:
        raise Refused("A comparison needs two arms or more.")
    whole = exact_trays(gap / spread, power - NEAR, arms)
    return None if whole is None else max(2, math.ceil(whole - 1e-6))


def table(
    spread: float,
    gaps: Sequence[float] = GAPS,
    power: float = USUAL_POWER,
    arms: int = 2,
) -> tuple[Repeats, ...]:
    """Give the trays per arm for each gap, all in % of the mean tray."""
    return tuple(Repeats(gap, trays_per_arm(spread, gap, power, arms)) for gap in gaps)
