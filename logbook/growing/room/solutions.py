"""Solutions: how much stock and how much water, and what to mind with each product.

C₁V₁ = C₂V₂. Strengths are percent weight in volume: 1 % is 10 g in a litre, 10,000 ppm.
"""

from dataclasses import dataclass

from logbook.growing.measures import Units, number_words, volume_words
from logbook.growing.quantities import STOCK, VOLUME, WANTED
from logbook.text import Refused

PPM_PER_PERCENT = 10_000


@dataclass(frozen=True, slots=True)
class Dilution:
    """What to pour together; ml, percent weight in volume."""

    stock_percent: float
    want_percent: float
    stock_ml: float
    water_ml: float

    @property
    def volume_ml(self) -> float:
        """What it makes."""
        return self.stock_ml + self.water_ml

    @property
    def want_ppm(self) -> float:
        """The made strength in ppm (mg in a litre)."""
        return self.want_percent * PPM_PER_PERCENT

    @property
    def parts_water(self) -> float:
        """Parts of water to one part of stock."""
        return self.water_ml / self.stock_ml

    @property
    def _parts(self) -> str:
        parts = self.parts_water
        return f"{parts:,.0f}" if parts >= 1_000 else number_words(parts)

    def words(self, units: Units = "metric") -> str:
        """Say in one sentence what to pour."""
        stock = volume_words(self.stock_ml, units)
        if units == "metric" and self.stock_ml < 100:
            stock = f"{number_words(self.stock_ml, 2)} ml"
        if round(self.stock_ml, 2) == 0:
            stock = f"Too little to measure ({self.stock_ml:.2g} ml)"
        return (
            f"{stock} of {strength_words(self.stock_percent)} stock into "
            f"{volume_words(self.water_ml, units)} of water makes "
            f"{volume_words(self.volume_ml, units)} at {strength_words(self.want_percent)} "
            f"(1 part to {self._parts} parts of water)."
        )


def strength_words(percent: float) -> str:
    """Write a strength for reading: "5.25 %" from a half percent up, else "200 ppm"."""
    if percent >= 0.5:
        return f"{number_words(percent, 2)} %"
    return f"{number_words(percent * PPM_PER_PERCENT)} ppm"


def dilute(stock_percent: float, want_percent: float, volume_ml: float) -> Dilution:
    """The stock and water that make a volume of a wanted strength; Refused where none can."""
    STOCK.checked(stock_percent)
    WANTED.checked(want_percent)
    VOLUME.checked(volume_ml)
    if want_percent > stock_percent:
        raise Refused(
            f"Stock of {strength_words(stock_percent)} cannot make "
            f"{strength_words(want_percent)}: water only thins it. Check % and ppm."
        )
    stock_ml = min(volume_ml * want_percent / stock_percent, volume_ml)
    return Dilution(stock_percent, want_percent, stock_ml, volume_ml - stock_ml)
