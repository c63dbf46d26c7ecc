"""What seed to buy, how much and by when."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import ClassVar

from logbook.growing.currencies import exact
from logbook.growing.planning.seed_need import SeedNeed


@dataclass(frozen=True, slots=True)
class SeedToBuy:
    """The seed of a crop: what sowings to come need, what is left, what to buy."""

    keys: ClassVar = "*need buy_grams buy_by supplier price_per_kg cost"

    need: SeedNeed
    lead_days: int
    """How many days a bag takes to come."""
    supplier: str = ""
    """Who sold the last bag of it."""
    price_per_kg: Decimal | None = None
    """What that bag cost per kilogram."""

    @property
    def crop(self) -> str:
        """The crop and its variety."""
        return self.need.crop

    @property
    def buy_grams(self) -> float:
        """What is missing, g; all that is needed where what is left is not known."""
        return round(max(0.0, self.need.need_grams - (self.need.have_grams or 0.0)), 1)

    @property
    def buy_by(self) -> date | None:
        """The last day to order it; null where it is enough, or what is left is not known."""
        runs_out = self.need.runs_out
        return runs_out and runs_out - timedelta(days=self.lead_days)

    @property
    def cost(self) -> Decimal | None:
        """What that costs at the price of the last bag; null where that is not known."""
        per_kg = self.price_per_kg
        return None if per_kg is None else per_kg * exact(self.buy_grams) / 1000


@dataclass(frozen=True, slots=True)
class MediumToBuy:
    """A medium, and for how many trays to come it is needed."""

    medium: str
    trays: int


def merged(lines: list[tuple[str, int]]) -> Iterator[MediumToBuy]:
    """Each medium once, by name; what has no name is left out."""
    for medium in sorted({name for name, _ in lines if name}):
        yield MediumToBuy(medium, sum(trays for name, trays in lines if name == medium))
