"""What a crop template wants of light, air and water."""

from logbook.growing import quantities
from logbook.growing.bands import Band
from logbook.growing.crops.template_fields import Record, record, told
from logbook.growing.crops.template_values import band, wanted_hours
from logbook.growing.measures import Units
from logbook.growing.quantities import Quantity


def _wanted(quantity: Quantity) -> Quantity:
    return quantity.named(f"wanted {quantity.name}")


@record()
class Targets(Record):
    """Daily light in mol m⁻² d⁻¹, lit hours a day, °C, % humidity; the water's mS/cm and ml a tray.

    None where the template has no wish.
    """

    light: Band | None = told(band(_wanted(quantities.DAILY_LIGHT), bare=True), default=None,
        label="daily light (DLI)", hint="mol/m²/d, like 8-12", meaning="Daily light (DLI), mol/m²/d.",
        heading="what the crop wants; each may stay empty")  # fmt: skip
    lit_hours: float | None = told(wanted_hours(_wanted(quantities.LIT_HOURS)), default=None,
        label="lit hours", hint="a day, like 16", says="lit: {} a day")  # fmt: skip
    celsius: Band | None = told(band(_wanted(quantities.TEMPERATURE)), default=None,
        key="temperature", label="temperature", hint=("like 18-24 C", "like 64-75 F"))  # fmt: skip
    humidity: Band | None = told(band(_wanted(quantities.HUMIDITY)), default=None, label="humidity",
        hint="like 40-65 %, or at most 65")  # fmt: skip
    ph: Band | None = told(band(_wanted(quantities.PH)), default=None, label="water pH",
        hint="like 5.5-6.5", says="water: pH {}")  # fmt: skip
    ec: Band | None = told(band(_wanted(quantities.EC), bare=True), default=None, label="water EC",
        meaning="mS/cm.", hint="mS/cm, like 0.8-1.6", says="water: EC {}")  # fmt: skip
    millilitres: Band | None = told(band(_wanted(quantities.WATER)), default=None, key="water",
        label="water per tray",
        hint=("at a watering, like 200-400 ml", "at a watering, like 7-14 floz"),
        says="water: {} per tray", meaning="ml per tray.",
        columns=("water_low_ml", "water_high_ml"))  # fmt: skip

    @property
    def empty(self) -> bool:
        """Whether nothing is wished."""
        return self == Targets()

    def lines(self, units: Units = "metric") -> list[str]:
        """Say each wish in a line."""
        values = ((each, getattr(self, each.attribute)) for each in Targets.fields)
        return [each.said(value, units) for each, value in values if value is not None]
