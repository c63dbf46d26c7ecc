"""Solutions: how much stock and how much water, and what to mind with each product.

C₁V₁ = C₂V₂. Strengths are percent weight in volume: 1 % is 10 g in a litre, 10,000 ppm.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from logbook.growing.measures import Units, number_words, volume_words
from logbook.growing.quantities import STOCK, VOLUME, WANTED
from logbook.text import Refused, fold

PPM_PER_PERCENT = 10_000

ProductKind = Literal["chlorine", "peroxide", "peroxyacetic", "acid", "alcohol", "quat", "other"]

_NAMES: tuple[tuple[ProductKind, str], ...] = (
    ("peroxyacetic", "peroxyacetic|peracetic|paa"),
    ("chlorine", "chlorine|bleach|hypochlorite|hypochlorous"),
    ("peroxide", "peroxide|h2o2"),
    ("acid", "acid|vinegar|citric|lemon|ph.?down|descaler"),
    ("alcohol", "alcohol|ethanol|isopropyl|isopropanol"),
    ("quat", "quats?|quaternary|benzalkonium"),
)

LABEL_IS_LAW = "The product's label is the law: its use, strength, time and rinsing come first."
NEVER_MIX = (
    "Never mix bleach with acid, vinegar, ammonia or peroxide, nor use one right after the other "
    "without rinsing: toxic gas."
)
WEAR = "Wear gloves and eye protection, open a window; keep it from children and food."
INTO_WATER = "Pour the stock into the water, not the water into the stock."

_MORE: dict[ProductKind, tuple[str, ...]] = {
    "chlorine": (
        "Mix fresh each day in cool water: light, heat and soil use it up. Use a test strip.",
        "Use unscented bleach only, and only for what its label allows.",
        "On produce 50 to 200 ppm for 1 to 2 minutes is known; a consumer label may allow only 25.",
        "Rinse seed and produce in drinking water; over 200 ppm also rinse what touches food.",
        "Let clean trays drain and dry in air.",
    ),
    "peroxide": (
        "Over about 8 % it burns skin and eyes and feeds fire: dilute such stock with great care.",
        "Use a grade meant for food; keep the bottle dark, cool and vented, never sealed tight.",
        "Rinse seed in drinking water after soaking.",
    ),
    "peroxyacetic": (
        "The stock burns and its vapour stings: fresh air, gloves, goggles.",
        "At most 80 ppm in wash water for produce in the US (21 CFR 173.315).",
        "Rinse or not as the label says.",
    ),
    "acid": (
        "Acid and bleach together give off chlorine: rinse everything that held bleach first.",
        "Add a little, stir, measure the pH again.",
    ),
    "alcohol": (
        "It burns: no flame, no hot lamp, no spraying near plugs; let it dry with the lamps off.",
    ),
    "quat": (
        "Not for seed or produce unless its label says so.",
        "Rinse what touches food unless the label calls it no-rinse at this strength.",
    ),
    "other": ("Rinse what touches food or seed unless the label says otherwise.",),
}


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

    def words(self, units: Units = "metric") -> str:
        """Say in one sentence what to pour."""
        stock = volume_words(self.stock_ml, units)
        if units == "metric" and self.stock_ml < 100:
            stock = f"{number_words(self.stock_ml, 2)} ml"
        return (
            f"{stock} of {strength_words(self.stock_percent)} stock into "
            f"{volume_words(self.water_ml, units)} of water makes "
            f"{volume_words(self.volume_ml, units)} at {strength_words(self.want_percent)} "
            f"(1 part to {number_words(self.parts_water)} parts of water)."
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


def product_kind(name: str) -> ProductKind:
    """Guess a product's kind from its plain name; "other" when no known word is in it."""
    words = fold(name)
    found = (kind for kind, pattern in _NAMES if re.search(rf"\b(?:{pattern})\b", words))
    return next(found, "other")


def cautions(
    kind: ProductKind = "other",
    stock_percent: float | None = None,
    want_percent: float | None = None,
) -> tuple[str, ...]:
    """What to mind with a product, the gravest first."""
    first: list[str] = []
    if kind == "peroxide" and stock_percent is not None and stock_percent > 8:
        first.append("This peroxide stock burns skin at a touch: goggles, gloves, water at hand.")
    if kind == "peroxyacetic" and want_percent is not None and want_percent > 0.008001:
        first.append("Over 80 ppm: not for washing produce in the US (21 CFR 173.315).")
    if kind == "chlorine" and want_percent is not None and want_percent > 0.020001:
        first.append("Over 200 ppm of chlorine: not for produce; rinse what touches food.")
    return (*first, LABEL_IS_LAW, NEVER_MIX, *_MORE[kind], WEAR, INTO_WATER)


@dataclass(frozen=True, slots=True)
class Use:
    """What was cleaned or soaked, how, with what; strengths in % weight in volume, ml, or none."""

    purpose: str
    method: str
    product: str = ""
    stock_percent: float | None = None
    want_percent: float | None = None
    volume_ml: float | None = None

    @property
    def dilution(self) -> Dilution | None:
        """How much of each; None where no strengths are given. Raise Refused for some but not all."""
        stock, want, volume = self.stock_percent, self.want_percent, self.volume_ml
        if stock is None and want is None and volume is None:
            return None
        if stock is None or want is None or volume is None:
            raise Refused(
                "Give stock, wanted strength and volume together, like 5.25%, 200ppm and 10L; or "
                "none of them."
            )
        return dilute(stock, want, volume)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind with its product; nothing where there is none."""
        kind = product_kind(self.product)
        return cautions(kind, self.stock_percent, self.want_percent) if self.product else ()

    @property
    def what(self) -> str:
        """Say what was done: "trays, brush and rinse, bleach at 200 ppm"."""
        parts = [self.purpose, self.method]
        if self.product:
            want = self.want_percent
            strength = "" if want is None else f" at {strength_words(want)}"
            parts.append(f"{self.product}{strength}")
        return ", ".join(parts)
