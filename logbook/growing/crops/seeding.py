"""How much seed: from density, tray, weight of a thousand, purity and germination."""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.growing.measures import number_words
from logbook.growing.quantities import DENSITY, GERMINATION, PURITY, THOUSAND
from logbook.text import Refused, fold

LEAST_GERMINATION = {
    "asparagus": 70, "beet": 65, "broadbean": 75, "broccoli": 75, "brussels sprout": 70,
    "burdock": 60, "cabbage": 75, "cardoon": 60, "carrot": 55, "cauliflower": 75, "celeriac": 55,
    "celery": 55, "chard": 65, "chicory": 65, "chinese cabbage": 75, "chinese kale": 75,
    "chive": 50, "collard": 80, "cornsalad": 70, "cowpea": 75, "garden cress": 75,
    "upland cress": 60, "watercress": 40, "dandelion": 60, "dill": 60, "endive": 70, "kale": 75,
    "kohlrabi": 75, "leek": 60, "lettuce": 80, "mustard": 75, "onion": 70, "pak choi": 75,
    "parsley": 60, "parsnip": 60, "pea": 80, "radish": 75, "rutabaga": 75, "sage": 60,
    "salsify": 75, "sorrel": 65, "soybean": 75, "spinach": 60, "spinach mustard": 75,
    "sweet corn": 75, "turnip": 80,
}  # fmt: skip
"""Germination standard in percent of vegetable seed in US interstate commerce: 7 CFR 201.31.

Hard seed counts in; what is below may be sold when it says so (201.29). Kinds that are grown as microgreens or near it; sunflower, basil, coriander, rocket and amaranth
are not listed there.
"""

_OTHER_NAMES = {
    "cress": "garden cress", "bok choy": "pak choi", "pak choy": "pak choi", "swede": "rutabaga",
    "lamb s lettuce": "cornsalad", "corn salad": "cornsalad", "napa cabbage": "chinese cabbage",
}  # fmt: skip


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


def least_germination(crop: str) -> int | None:
    """The germination standard in percent for a crop's name; None where the rule lists none."""
    words = _stems(crop)
    known = {name: name for name in LEAST_GERMINATION} | _OTHER_NAMES
    for name in sorted(known, key=len, reverse=True):
        wanted = _stems(name)
        if any(words[at : at + len(wanted)] == wanted for at in range(len(words))):
            return LEAST_GERMINATION[known[name]]
    return None


def _stems(name: str) -> list[str]:
    """A name's words without plural endings: "Radishes, red" → radish, red."""
    return [
        re.sub(r"(?<=sh|ch|ss)es$|(?<!s)s$", "", word) for word in re.findall(r"\w+", fold(name))
    ]


def germination_words(crop: str, germination_percent: float) -> str | None:
    """Say when a lot germinates below the US standard; None when it reaches it or there is none."""
    least = least_germination(crop)
    if least is None or germination_percent >= least:
        return None
    return (
        f"{number_words(germination_percent)} % germination is below the US standard for this kind, "
        f"{least} % with hard seed counted in (7 CFR 201.31). Such seed may be sold: a packet of up "
        'to 1 lb is then marked "Below Standard" (7 CFR 201.29). Sow more of it to make up.'
    )
