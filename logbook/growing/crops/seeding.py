"""How much seed: from density, tray, weight of a thousand, purity and germination."""

from dataclasses import dataclass

from logbook.growing.measures import number_words
from logbook.growing.quantities import DENSITY, GERMINATION, PURITY, THOUSAND
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class SeedNeed:
    """Seed for one tray: live seeds wanted, seeds to sow, grams as weighed out of the bag."""

    seeds: float
    seeds_sown: float
    grams: float
    pure_live_share: float

    @property
    def words(self) -> str:
        """One line for the grower."""
        return (
            f"{number_words(self.grams, 2 if self.grams < 100 else 1)} g per tray: "
            f"{self.seeds:,.0f} seeds that come up, {self.seeds_sown:,.0f} sown"
        )


def pure_live_share(purity_percent: float, germination_percent: float) -> float:
    """The share (0 to 1) of a bag's weight that is pure seed and comes up."""
    return PURITY.checked(purity_percent) / 100 * GERMINATION.checked(germination_percent) / 100


def tray_area_cm2(length_mm: float, width_mm: float) -> float:
    """The area of a tray in cm²."""
    if length_mm <= 0 or width_mm <= 0:
        raise Refused("A tray's sides must be more than 0.")
    return length_mm * width_mm / 100


def seed_need(
    per_cm2: float, area_cm2: float, grams_per_thousand: float, purity_percent: float = 100,
    germination_percent: float = 100,
) -> SeedNeed:  # fmt: skip
    """The seed for a density of plants wanted per cm², made up for what will not come up."""
    DENSITY.checked(per_cm2)
    THOUSAND.checked(grams_per_thousand)
    if area_cm2 <= 0:
        raise Refused("The tray's area must be more than 0.")
    share = pure_live_share(purity_percent, germination_percent)
    seeds = per_cm2 * area_cm2
    return SeedNeed(seeds=seeds, seeds_sown=seeds / (germination_percent / 100),
        grams=seeds * grams_per_thousand / 1000 / share, pure_live_share=share)  # fmt: skip
