"""Water for trays: pH, EC and amount, as people write them and against what a template wants."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar, Literal

from logbook.growing.bands import Band
from logbook.growing.crops.targets import Targets
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.quantities import EC, PH, WATER
from logbook.text import listed

WaterThing = Literal["pH", "EC", "amount"]
Side = Literal["low", "in", "high"]

_UNITS = {"pH": "", "EC": " mS/cm", "amount": " ml per tray"}
_WHAT_HELPS = {
    ("pH", "low"): "less acid, or a little of a base, then measure again",
    ("pH", "high"): "a little citric acid or pH-down, as its label says, then measure again",
    ("EC", "low"): "more feed, as its label says; a short crop may need none",
    ("EC", "high"): "dilute with plain water",
    ("amount", "low"): "lift a tray: a light one wants more",
    ("amount", "high"): "pour off standing water; roots need air",
}


@dataclass(frozen=True, slots=True)
class WaterReading:
    """Water as measured: pH, EC in mS/cm, ml to a tray; None where it was not measured."""

    keys: ClassVar = "water_ml=millilitres ph ec_ms_cm=ec"

    ph: float | None = None
    ec: float | None = None
    millilitres: float | None = None

    def __post_init__(self) -> None:
        for quantity, value in ((PH, self.ph), (EC, self.ec), (WATER, self.millilitres)):
            if value is not None:
                quantity.checked(value)


@dataclass(frozen=True, slots=True)
class WaterMark:
    """One measured thing against its band."""

    what: WaterThing
    value: float
    band: Band
    side: Side

    @property
    def words(self) -> str:
        """One line for the grower: "pH 7.4 is high (wanted 5.5 to 6.5): …"."""
        value = f"{self.band.told(self.value, 2)}{_UNITS[self.what]}"
        if self.side == "in":
            return f"{self.what} {value} is in range"
        return (
            f"{self.what} {value} is {self.side} (wanted {self.band.words}): "
            f"{_WHAT_HELPS[self.what, self.side]}"
        )


def water_marks(reading: WaterReading, target: Targets) -> tuple[WaterMark, ...]:
    """Mark each thing that was measured and has a band: low, in, or high."""
    sides: dict[int, Side] = {-1: "low", 0: "in", 1: "high"}
    pairs: tuple[tuple[WaterThing, float | None, Band | None], ...] = (
        ("pH", reading.ph, target.ph),
        ("EC", reading.ec, target.ec),
        ("amount", reading.millilitres, target.millilitres),
    )
    return tuple(
        WaterMark(what, value, band, sides[band.side(value)])
        for what, value, band in pairs
        if value is not None and band is not None
    )


def out_of_band(reading: WaterReading, templates: Iterable[CropTemplate]) -> list[str]:
    """Say what lies outside the band of any of the templates, each thing once, crops named."""
    found: dict[str, list[str]] = {}
    for template in templates:
        for mark in water_marks(reading, template.targets):
            if mark.side != "in":
                crops = found.setdefault(mark.words, [])
                if template.label() not in crops:
                    crops.append(template.label())
    return [f"{words} ({listed(crops, 3)})." for words, crops in found.items()]
