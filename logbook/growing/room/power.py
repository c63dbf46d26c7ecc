"""Lamps over a shelf, what they draw and do for it: watts, VA, kWh, grams per kWh; circuits.

W = V·A·PF; kWh = W × hours ÷ 1000. A circuit is held against the share that its breaker should
carry for hours: in US practice (NEC 210.19(A), 210.20(A)) a continuous load, 3 h or more, takes at
most 80 %. Other countries differ, so this is a caution and never a ruling.
"""

import math
from collections.abc import Sequence
from dataclasses import KW_ONLY, dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from logbook.growing import quantities
from logbook.growing.bands import Band
from logbook.growing.cautions import words_of
from logbook.growing.currencies import Currency, exact
from logbook.growing.measures import Units, grams_words, length_words, number_words, weighing
from logbook.text import Refused, plural

LABEL_ROUNDING = 1.05
"""Labels round amps: watts up to this share of volts × amps count as a power factor of 1."""

WET_ROOM_CAUTIONS = words_of("electricity by water")[:-1]
LOCAL_CODE = words_of("electricity by water")[-1]


@dataclass(frozen=True, slots=True)
class Draw:
    """What a set of lamps draws together; volts, amps, VA and power factor are None if unknown."""

    watts: float
    volts: float | None = None
    amps: float | None = None
    volt_amps: float | None = None
    power_factor: float | None = None

    @property
    def words(self) -> str:
        """Say it: "72 W, 79 VA, 0.36 A, power factor 0.91", or the watts alone."""
        words = f"{number_words(self.watts)} W"
        if self.volt_amps is None or self.amps is None or self.power_factor is None:
            return words
        return (
            f"{words}, {number_words(self.volt_amps)} VA, {number_words(self.amps, 2)} A, "
            f"power factor {number_words(self.power_factor, 2)}"
        )


def draw(
    watts: float, lamps: int = 1, *, volts: float | None = None, amps: float | None = None,
    power_factor: float | None = None,
) -> Draw:  # fmt: skip
    """What `lamps` lamps draw together; watts and amps are those of one lamp.

    Amps follow from a power factor, or the power factor from amps. Raise Refused when the numbers
    cannot belong to one lamp (more watts than volts × amps).
    """
    if lamps < 1:
        raise Refused(f"There must be at least 1 lamp, not {lamps}.")
    quantities.WATTS.checked(watts)
    if amps is not None and power_factor is not None:
        raise Refused("Give the amps or the power factor, not both; one follows from the other.")
    if volts is None:
        if amps is not None:
            raise Refused("Amps need volts beside them; add the voltage, like 120 or 230.")
        return Draw(watts * lamps, power_factor=power_factor)
    if power_factor is not None:
        amps = watts / quantities.POWER_FACTOR.checked(power_factor) / volts
    if amps is None:
        return Draw(watts * lamps, volts=volts)
    each = volts * quantities.AMPS.checked(amps)
    if watts > each * LABEL_ROUNDING:
        raise Refused(
            f"{number_words(watts)} W cannot come from {number_words(volts)} V × "
            f"{number_words(amps, 3)} A = {number_words(each)} VA; check the label of one lamp."
        )
    return Draw(watts=watts * lamps, volts=volts, amps=amps * lamps, volt_amps=each * lamps,
        power_factor=power_factor or min(watts / each, 1.0))  # fmt: skip


def kwh(watts: float, lit_hours: float) -> float:
    """The energy in kWh of some watts over some lit hours."""
    if watts < 0 or lit_hours < 0:
        raise Refused("Watts and hours must be 0 or more.")
    return watts * lit_hours / 1000


@dataclass(frozen=True, slots=True)
class Worth:
    """What light and electricity gave: None wherever nothing was cut or nothing was spent."""

    grams_per_kwh: float | None
    grams_per_mol: float | None
    cost_per_100_g: Decimal | None

    def cost_words(self, money: Currency, units: Units = "metric", per: str = " per ") -> str:
        """Write the cost: "0.127 EUR per 100 g", or "0.036 USD per oz"; '' where it is not known."""
        if self.cost_per_100_g is None:
            return ""
        of = weighing(units)
        return f"{money.rate(float(self.cost_per_100_g) * of.share)}{per}{of.priced}"

    def yield_words(self, units: Units = "metric", per: str = " per ") -> list[str]:
        """Write what was cut for kWh and for mol: "203 g per kWh", or in oz; what is known of it."""
        return [
            f"{grams_words(value, units)}{per}{of}"
            for value, of in ((self.grams_per_kwh, "kWh"), (self.grams_per_mol, "mol"))
            if value is not None
        ]


def worth(
    grams: float, *, kwh_used: float | None = None, mol: float | None = None,
    cost: Decimal | None = None,
) -> Worth:  # fmt: skip
    """Set cut grams against kWh, `mol` (mol m⁻² times area in m²) and cost of the same trays."""
    return Worth(
        grams_per_kwh=grams / kwh_used if kwh_used and grams > 0 else None,
        grams_per_mol=grams / mol if mol and grams > 0 else None,
        cost_per_100_g=100 * cost / exact(grams) if grams > 0 and cost is not None else None,
    )


def per_tray(whole: Decimal, trays: int) -> Decimal | None:
    """Each tray's share of what a shelf used; None when the shelf is empty."""
    return whole / trays if trays > 0 else None


@dataclass(frozen=True, slots=True)
class LampSet:
    """The lamps of a shelf, all alike; 0 are none. Watts and amperes are those of one lamp.

    `kind` and `light` (colour temperature or spectrum) are the grower's words; `height_mm` is from
    the shelf to the lamp. Raises Refused for numbers that cannot belong to lamps on a shelf.
    """

    lamps: int
    watts: float = 0.0
    kind: str = ""
    light: str = ""
    amps: float | None = None
    volts: float | None = None
    height_mm: float | None = None
    bought: date | None = None

    def __post_init__(self) -> None:
        if self.lamps == 0:
            return
        quantities.LAMPS.checked(self.lamps)
        quantities.WATTS.checked(self.watts)
        if self.height_mm is not None:
            quantities.LAMP_HEIGHT.checked(self.height_mm)
        _ = self.draw

    @property
    def draw(self) -> Draw:
        """What all of them draw together; nothing when there is none."""
        if self.lamps == 0:
            return Draw(0.0)
        return draw(self.watts, self.lamps, volts=self.volts, amps=self.amps)

    def words(self, units: Units = "metric") -> str:
        """Say what hangs there: "4 × LED bar, 18 W each, 4000 K, 21 cm above the shelf"."""
        if self.lamps == 0:
            return "no lamps"
        what = f"{self.lamps} × {self.kind}" if self.kind else plural(self.lamps, "lamp")
        parts = [what, f"{number_words(self.watts)} W each"]
        if self.amps is not None:
            parts.append(f"{number_words(self.amps, 3)} A")
        if self.light:
            parts.append(self.light)
        if self.height_mm is not None:
            parts.append(f"{length_words(self.height_mm, units)} above the shelf")
        if self.bought is not None:
            parts.append(f"bought {self.bought.isoformat()}")
        return ", ".join(parts)


def circuit_amps(lamps: LampSet, volts: float) -> tuple[float, bool]:
    """The amperes of a shelf's lamps on a circuit, and whether they are from the label.

    Without amps on the label, watts ÷ volts: the least that they can draw, a poor power factor
    draws more.
    """
    found = lamps.draw.amps
    return (lamps.draw.watts / volts, False) if found is None else (found, True)


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
        percent, usual = 100 * self.limit_amps / self.breaker_amps, 100 * CONTINUOUS_SHARE
        share = f"{number_words(percent)} %"
        load = (
            f"{Band(high=self.limit_amps).told(self.amps, 2)} A of {number_words(self.limit_amps, 2)} A "
            f"({share} of a {number_words(self.breaker_amps)} A breaker)"
        )
        rule = (
            f"NEC 210.20(A), US practice, says {usual:g} % for a load of 3 h or more; "
            "elsewhere the rule differs."
        )
        if not math.isclose(percent, usual):
            rule = f"You set {share}; {rule}"
        if self.within:
            left = f"Within: {load}, {number_words(max(self.left_amps, 0.0), 2)} A left."
            return (
                f"{left} {rule}" if percent > usual and not math.isclose(percent, usual) else left
            )
        over = "and trips the breaker" if self.amps > self.breaker_amps else "for a continuous load"
        return (
            f"Caution, over: {load} is too much {over}. {rule} "
            f"Move lamps to another circuit. {LOCAL_CODE}"
        )

    @property
    def cautions(self) -> tuple[str, ...]:
        """What applies to every circuit in a wet room."""
        return words_of("electricity by water")


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
    limit = quantities.BREAKER.checked(breaker_amps) * quantities.SHARE.checked(100 * share) / 100
    total = math.fsum(quantities.LOAD.checked(one) for one in amps)
    return CircuitLoad(total, breaker_amps, quantities.VOLTS.checked(volts), limit)
