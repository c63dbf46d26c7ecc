"""One tray per arm: no test, only how often chance alone parts the best and worst so far."""

from __future__ import annotations

import math

from logbook.growing.trials.distributions import range_tail
from logbook.text import Refused


def range_p_value(difference: float, spread: float, arms: int) -> float:
    """Chance of a gap this wide between the best and worst of `arms` alike trays.

    The studentized range with a known spread (infinite degrees of freedom). Gap and spread
    (standard deviation from tray to tray) are in the same unit.

    Raises:
        Refused: the spread is not above 0, or there is one arm.
    """
    if not (math.isfinite(spread) and spread > 0):
        raise Refused("The spread must be more than 0, like 8%.")
    if arms < 2:
        raise Refused("One arm alone cannot be compared; a trial needs two or more.")
    return range_tail(difference / spread, arms, math.inf)
