"""What a crop template wants of light, air and water."""

from __future__ import annotations

from dataclasses import dataclass, field

from logbook.growing.bands import Band
from logbook.growing.measures import Units, number_words, temperature_words
from logbook.growing.quantities import EC, HUMIDITY, LIT_HOURS, PH, TEMPERATURE, WATER
from logbook.growing.water import WaterTarget
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class LightTarget:
    """The daily light that a crop wants, mol m⁻² d⁻¹, from low to high."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not 0 <= self.low <= self.high <= 100:
            raise Refused(
                "The wanted daily light goes from a low to a high number, 0 to 100 mol/m² a day."
            )


@dataclass(frozen=True, slots=True)
class Targets:
    """Daily light and lit hours, bands of temperature in °C and humidity in %, and of the water.

    None where the template has no wish.
    """

    light: LightTarget | None = None
    lit_hours: float | None = None
    celsius: Band | None = None
    humidity: Band | None = None
    water: WaterTarget = field(default_factory=WaterTarget)

    def __post_init__(self) -> None:
        if self.lit_hours is not None:
            LIT_HOURS.checked(self.lit_hours)
        for quantity, band in (
            (TEMPERATURE, self.celsius), (HUMIDITY, self.humidity),
            (PH, self.water.ph), (EC, self.water.ec), (WATER, self.water.millilitres),
        ):  # fmt: skip
            for end in (band.low, band.high) if band else ():
                if end:
                    quantity.checked(end)

    @property
    def empty(self) -> bool:
        """Whether nothing is wished."""
        return self == Targets()

    def lines(self, units: Units = "metric") -> list[str]:
        """Say each wish in a line."""
        lines = []
        if self.light is not None:
            light = Band(self.light.low, self.light.high).words
            lines.append(f"daily light: {light} mol/m²")
        if self.lit_hours is not None:
            lines.append(f"lit: {number_words(self.lit_hours)} h a day")
        if self.celsius is not None:
            lines.append(f"temperature: {_degrees(self.celsius, units)}")
        if self.humidity is not None:
            lines.append(f"humidity: {self.humidity.words} %")
        if self.water.ph is not None:
            lines.append(f"water: pH {self.water.ph.words}")
        if self.water.ec is not None:
            lines.append(f"water: EC {self.water.ec.words} mS/cm")
        if self.water.millilitres is not None:
            lines.append(f"water: {self.water.millilitres.words} ml a tray")
        return lines


def _degrees(band: Band, units: Units) -> str:
    low, high = (
        None if end is None else temperature_words(end, units) for end in (band.low, band.high)
    )
    if low and high:
        return f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"
