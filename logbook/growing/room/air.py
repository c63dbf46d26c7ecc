"""What temperature and humidity mean, and how they are written: vapour pressure deficit, dew point.

Saturation vapour pressure e°(T) = 0.6108·exp(17.27 T/(T + 237.3)) kPa, T in °C: FAO Irrigation and
Drainage Paper 56, equation 11 (Allen et al. 1998). Over water, also below 0 °C.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.growing.measures import Units, number_words, temperature_words
from logbook.growing.quantities import AIR, HUMIDITY, TEMPERATURE
from logbook.text import Refused, clean

FEED = "feed"
"""How an entry is marked that a sensor's feed wrote."""


def saturation_kpa(celsius: float) -> float:
    """The saturation vapour pressure in kPa."""
    celsius = TEMPERATURE.checked(celsius)
    return 0.6108 * math.exp(17.27 * celsius / (celsius + 237.3))


def vapour_kpa(celsius: float, humidity: float) -> float:
    """The vapour pressure in the air in kPa."""
    return saturation_kpa(celsius) * HUMIDITY.checked(humidity) / 100


def vpd_kpa(celsius: float, humidity: float) -> float:
    """The vapour pressure deficit of the air in kPa, 0 or more."""
    return saturation_kpa(celsius) * (100 - HUMIDITY.checked(humidity)) / 100


def leaf_vpd_kpa(celsius: float, humidity: float, leaf_celsius: float) -> float:
    """The deficit between leaf and air in kPa; below 0 the leaf is wet with dew."""
    return saturation_kpa(leaf_celsius) - vapour_kpa(celsius, humidity)


def dew_point_c(celsius: float, humidity: float) -> float | None:
    """The dew point in °C, the inverse of the saturation formula; None in wholly dry air."""
    vapour = vapour_kpa(celsius, humidity)
    if vapour <= 0:
        return None
    ratio = math.log(vapour / 0.6108)
    return 237.3 * ratio / (17.27 - ratio)


@dataclass(frozen=True, slots=True)
class AirReading:
    """Air at a moment (aware): temperature in °C, relative humidity in %, air moving or still."""

    keys: ClassVar = "at celsius humidity_percent=humidity vpd_kpa dew_point_c still"

    at: datetime
    celsius: float
    humidity: float
    still: bool | None = None
    """Whether the air stood still; null when nobody said."""

    def __post_init__(self) -> None:
        TEMPERATURE.checked(self.celsius)
        HUMIDITY.checked(self.humidity)

    @property
    def vpd_kpa(self) -> float:
        """Vapour pressure deficit in kPa."""
        return vpd_kpa(self.celsius, self.humidity)

    @property
    def dew_point_c(self) -> float | None:
        """Dew point in °C; None in wholly dry air."""
        return dew_point_c(self.celsius, self.humidity)

    def words(self, units: Units = "metric") -> str:
        """What was read and what it means: "21.4 °C, 63 %, VPD 0.94 kPa, dew point 14.1 °C"."""
        still = {True: ", still", False: ", moving", None: ""}[self.still]
        return (
            f"{temperature_words(self.celsius, units)}, {number_words(self.humidity)} %{still}, "
            f"{air_words(self.celsius, self.humidity, units=units)}"
        )


def air_words(
    celsius: float, humidity: float, leaf_celsius: float | None = None, units: Units = "metric"
) -> str:
    """Say in a line what the air is like, and whether dew falls on leaves."""
    dew = dew_point_c(celsius, humidity)
    point = "no dew point in wholly dry air"
    if dew is not None:
        point = f"dew point {temperature_words(dew, units)}"
    parts = [f"VPD {vpd_kpa(celsius, humidity):.2f} kPa", point]
    if leaf_celsius is not None:
        leaf = leaf_vpd_kpa(celsius, humidity, leaf_celsius)
        parts.append(f"leaf to air {leaf:.2f} kPa")
        if leaf <= 0:
            parts.append("the leaf is at or under the dew point: dew forms on it")
    return ", ".join(parts)


def air_from(text: str, units: Units) -> tuple[float, float, bool | None]:
    """Read "21.4 63", "70F 55% still" as °C, % and whether the air stands still; raise Refused."""
    still: bool | None = None
    parts: list[str] = []
    for word in clean(text, lines=False).split():
        folded = word.casefold().strip(",;")
        if folded in ("still", "moving"):
            still = folded == "still"
        elif parts and not re.search(r"\d", word):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
    if len(parts) != 2:
        raise Refused(
            "Write temperature and humidity, like 21.4 63 or 70F 55%, and still or moving."
        )
    return AIR.read(parts[0], units), HUMIDITY.read(parts[1]), still
