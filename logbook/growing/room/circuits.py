"""Circuits: what is plugged into one breaker, against the share it should carry for hours.

US practice (NEC 210.19(A), 210.20(A)): a continuous load, 3 h or more, takes at most 80 % of the
breaker. Other countries differ, so this is a caution and never a ruling.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import KW_ONLY, dataclass
from typing import ClassVar

from logbook.growing.measures import number_words
from logbook.growing.quantities import BREAKER, LOAD, SHARE, VOLTS
from logbook.growing.room.power import LOCAL_CODE, WET_ROOM_CAUTIONS

CONTINUOUS_SHARE = 0.8


@dataclass(frozen=True, slots=True)
class CircuitLoad:
    """A circuit's load in amperes; shares in percent of the breaker and of the continuous limit."""

    reckoned: ClassVar = True
    keys: ClassVar = """
        amps breaker_amps continuous_limit_amps=limit_amps
        continuous_limit_watts=limit_volt_amps share_percent share_of_limit_percent
        left_amps within words cautions
    """

    amps: float
    breaker_amps: float
    volts: float
    limit_amps: float

    @property
    def limit_volt_amps(self) -> float:
        """The continuous limit in VA; in watts when the power factor is 1."""
        return self.limit_amps * self.volts

    @property
    def share_percent(self) -> float:
        """The load in percent of the breaker's amperes."""
        return 100 * self.amps / self.breaker_amps

    @property
    def share_of_limit_percent(self) -> float:
        """The load in percent of the continuous limit."""
        return 100 * self.amps / self.limit_amps

    @property
    def left_amps(self) -> float:
        """What may still be added; negative when the load is over the limit."""
        return self.limit_amps - self.amps

    @property
    def within(self) -> bool:
        """Whether the load keeps to the continuous limit."""
        return self.amps <= self.limit_amps or math.isclose(self.amps, self.limit_amps)

    @property
    def words(self) -> str:
        """What it means, in a sentence or two; over the limit a caution."""
        share = f"{number_words(100 * self.limit_amps / self.breaker_amps)} %"
        load = (
            f"{number_words(self.amps, 2)} A of {number_words(self.limit_amps, 2)} A "
            f"({share} of a {number_words(self.breaker_amps)} A breaker)"
        )
        if self.within:
            return f"Within: {load}, {number_words(max(self.left_amps, 0.0), 2)} A left."
        over = "and trips the breaker" if self.amps > self.breaker_amps else "for hours on end"
        return (
            f"Caution, over: {load} is too much {over}. In US practice a load of 3 h or more takes "
            f"at most {share} of the breaker (NEC 210.20(A)); elsewhere the rule differs. "
            f"Move lamps to another circuit. {LOCAL_CODE}"
        )

    @property
    def cautions(self) -> tuple[str, ...]:
        """What holds for every circuit in a wet room."""
        return (*WET_ROOM_CAUTIONS, LOCAL_CODE)


@dataclass(frozen=True, slots=True)
class Circuit:
    """A circuit as it is said: its breaker, and the amperes of what else it carries for hours."""

    name: str
    breaker_amps: float
    volts: float
    _: KW_ONLY
    share_percent: float = 100 * CONTINUOUS_SHARE
    other_amps: float = 0.0
    """Of fans, pumps, heaters."""

    def load(self, amps: Sequence[float] = ()) -> CircuitLoad:
        """Its load with lamps of these amperes on it."""
        share = self.share_percent / 100
        return circuit_load([self.other_amps, *amps], self.breaker_amps, self.volts, share)


def circuit_load(
    amps: Sequence[float], breaker_amps: float, volts: float, share: float = CONTINUOUS_SHARE
) -> CircuitLoad:
    """Add up the amperes on a circuit; share is what a breaker carries for hours, 0 to 1."""
    limit = BREAKER.checked(breaker_amps) * SHARE.checked(100 * share) / 100
    total = math.fsum(LOAD.checked(one) for one in amps)
    return CircuitLoad(total, breaker_amps, VOLTS.checked(volts), limit)
