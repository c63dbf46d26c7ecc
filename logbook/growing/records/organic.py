"""The mass balance of organic seed and of what was cut and sold of it (7 CFR 205.103, from memory)."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from logbook.growing.days import day_words

LAST_WORD = (
    "Records are kept for five years and show each product from the purchase of its seed to its "
    "sale "
    "(7 CFR 205.103, from memory). Your certifier decides."
)


@dataclass(frozen=True, slots=True)
class SeedBalance:
    """What came and went of an organic seed lot over some days, g; null where it isn't known."""

    lot: str
    crop: str
    start_grams: float | None
    bought_grams: float
    sown_grams: float
    left_grams: float | None
    certificate: str = ""

    @property
    def off_grams(self) -> float | None:
        """More left (above 0) or less (below) than what was there less what was sown."""
        if self.start_grams is None or self.left_grams is None:
            return None
        return round(self.left_grams - (self.start_grams + self.bought_grams - self.sown_grams), 3)


@dataclass(frozen=True, slots=True)
class LotBalance:
    """What went into an organic pack lot and out of it, g."""

    code: str
    crop: str
    packed_on: date
    in_grams: float
    sold_grams: float
    """What customers got and didn't return."""
    mixed_grams: float
    """What mixed lots took of it."""
    own_use_grams: float
    waste_grams: float
    """What was wasted, what came back too."""
    all_organic: bool
    """Whether all that went into it was, also of the lots that a mixed one took of."""

    @property
    def left_grams(self) -> float:
        """What is left; below 0 more went out than in."""
        out = self.sold_grams + self.mixed_grams + self.own_use_grams + self.waste_grams
        return round(self.in_grams - out, 3)


@dataclass(frozen=True, slots=True)
class Organic:
    """The certificate, and what came and went of organic seed and lots over some days."""

    keys: ClassVar = "since until certificate certified_until certified seed lots cautions"

    since: date
    until: date
    today: date
    certificate: str | None
    certified_until: date | None
    seed: tuple[SeedBalance, ...]
    lots: tuple[LotBalance, ...]

    @property
    def certified(self) -> bool:
        """Whether a certificate is known that hasn't run out."""
        ran_out = self.certified_until is not None and self.certified_until < self.today
        return bool(self.certificate) and not ran_out

    def sum(self, grams: Callable[[LotBalance], float]) -> float:
        """The sum of something over its lots."""
        return sum(map(grams, self.lots))

    @property
    def cautions(self) -> tuple[str, ...]:
        """What doesn't add up or isn't known, a sentence each."""
        return tuple(self._cautions())

    def _cautions(self) -> Iterator[str]:
        if not self.certificate:
            yield "No organic certificate is in the book, so nothing may be sold as organic."
        elif not self.certified and self.certified_until is not None:
            yield f"The certificate ran out on {day_words(self.certified_until, self.today)}."
        for lot in self.lots:
            if lot.left_grams < 0:
                yield f"{lot.code}: more went out than was cut into it."
            if not lot.all_organic:
                yield f"{lot.code} has cuts of other seed too, so it is not organic."
        for seed in self.seed:
            if seed.off_grams is None:
                yield f"Seed lot {seed.lot}: how much there was isn't known; weigh its bag."
