"""How many trays are surely enough for an order, without a book."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from statistics import NormalDist
from typing import ClassVar

from logbook.growing.crops.chances import odds_words
from logbook.growing.measures import grams_words
from logbook.text import Refused, plural

MOST_TRAYS = 10_000


@dataclass(frozen=True, slots=True)
class Yield:
    """What trays of one sowing give: the mean (g) and its standard deviation after trimming.

    `batch_share` of the variance is common to all trays of the sowing. Weights are taken as normal.
    """

    grams: float
    sd: float
    batch_share: float = 0.0

    def sum_of(self, trays: int) -> NormalDist:
        """The weight of so many trays together."""
        common = self.batch_share * trays**2
        own = (1 - self.batch_share) * trays
        return NormalDist(self.grams * trays, self.sd * math.sqrt(common + own))

    def chance(self, trays: int, order: float) -> float:
        """The chance that so many trays give at least `order` grams."""
        whole = self.sum_of(trays)
        if not whole.stdev:
            return float(whole.mean >= order)
        return 0.5 * math.erfc((order - whole.mean) / whole.stdev / math.sqrt(2))

    def surplus(self, trays: int, order: float) -> float:
        """The grams above `order` to expect, where a short delivery counts as no surplus."""
        whole = self.sum_of(trays)
        over = whole.mean - order
        if not whole.stdev:
            return max(0.0, over)
        z = over / whole.stdev
        return over * self.chance(trays, order) + whole.stdev * NormalDist().pdf(z)


@dataclass(frozen=True, slots=True)
class Enough:
    """The fewest trays of one sowing that are surely enough."""

    reckoned: ClassVar = True
    keys: ClassVar = "trays chance_of_enough expected_surplus_grams"

    trays: int
    chance_of_enough: float
    expected_surplus_grams: float

    def lines(self) -> Iterator[str]:
        """Say it in words."""
        yield f"{plural(self.trays, 'tray')}: enough {odds_words(self.chance_of_enough)}"
        yield f"expected surplus {grams_words(self.expected_surplus_grams)}"


def fewest(order: float, of: Yield, sure: float) -> Enough:
    """The fewest trays that give `order` grams with the chance `sure`, more trays never giving less.

    Raises Refused where the luck of the whole sowing is too great for any number of trays.
    """
    if of.chance(MOST_TRAYS, order) < sure:
        raise Refused(
            f"Even {MOST_TRAYS:,} trays of one sowing aren't enough with that chance. "
            "Ask for a lower chance, or split the order over several sowings."
        )
    short, enough = 0, MOST_TRAYS
    while enough - short > 1:
        middle = (short + enough) // 2
        short, enough = (short, middle) if of.chance(middle, order) >= sure else (middle, enough)
    return Enough(enough, of.chance(enough, order), of.surplus(enough, order))
