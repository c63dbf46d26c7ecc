"""Seed lots as things: the bags that were bought, what was drawn from them, what is left."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, tzinfo
from decimal import Decimal
from typing import ClassVar

from logbook.growing.currencies import exact
from logbook.growing.days import day_bounds
from logbook.growing.measures import Units, grams_words
from logbook.growing.seed.counted import Counted
from logbook.text import fold

TREATED = "treated seed must not be eaten, nor what grows from it"


@dataclass(frozen=True, slots=True)
class Bag:
    """A bag of a seed lot as it was bought; what nobody said is None or ''."""

    lot: str
    crop: str
    """Crop and variety, as in a template."""
    grams: float
    """Seed in it when it was bought."""
    bought: date
    supplier: str = ""
    price: Decimal | None = None
    """For all of it, in the book's currency."""
    germination_percent: float | None = None
    """What the label says comes up."""
    tested: date | None = None
    """When the label's test was."""
    treated: bool | None = None
    """Whether the seed is treated: then it must not be eaten."""
    for_food: bool | None = None
    """Whether it was sold to be eaten as sprouts or shoots."""
    organic: bool | None = None
    """Whether it is certified organic."""

    @property
    def price_per_kg(self) -> Decimal | None:
        """What a kilogram of it cost."""
        return None if self.price is None else self.price * 1000 / exact(self.grams)


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidBag(Bag):
    """A bag as an entry says."""

    entry: int
    at: datetime
    """When it was bought or, where that was written later, when it was written."""
    by: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidCount(Counted):
    """A count of seedlings as an entry says."""

    keys: ClassVar = "sown up germination_percent low_percent high_percent at entry by"

    lot: str
    entry: int
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class SaidWeight:
    """What was left of a lot when it was weighed, g, as an entry says."""

    lot: str
    grams: float
    entry: int
    at: datetime


@dataclass(frozen=True, slots=True)
class Draw:
    """Seed taken from a lot for trays of a batch when they were soaked or sown dry."""

    batch_id: int
    at: datetime
    trays: int
    grams: float | None
    """None where nobody said how much."""
    crop: str


@dataclass(frozen=True, slots=True)
class LotStock:
    """A seed lot: its bags, counts, weights and what was drawn, each oldest first."""

    keys: ClassVar = """
        lot crop supplier=newest.supplier bought=newest.bought bought_grams
        price=newest.price price_per_kg=newest.price_per_kg
        germination_percent=newest.germination_percent tested=newest.tested
        treated=newest.treated for_food=newest.for_food organic=newest.organic
        left_grams exact drawn_grams trays counted
    """

    lot: str
    zone: tzinfo
    bags: tuple[SaidBag, ...] = ()
    counts: tuple[SaidCount, ...] = ()
    weights: tuple[SaidWeight, ...] = ()
    draws: tuple[Draw, ...] = field(default=())

    @property
    def newest(self) -> SaidBag | None:
        """The bag that was bought last; None where no purchase is known."""
        return max(self.bags, key=lambda bag: (bag.bought, bag.entry), default=None)

    @property
    def treated(self) -> bool:
        """Whether its seed is known to be treated."""
        return bool(self.newest and self.newest.treated)

    @property
    def crop(self) -> str:
        """What it grows into: as its bag says, else as it was sown."""
        return self.newest.crop if self.newest else self.draws[-1].crop if self.draws else ""

    def is_of(self, crop: str) -> bool:
        """Whether it is seed of a crop, named with or without its variety."""
        return is_of(self.crop, crop)

    @property
    def empty(self) -> bool:
        """Whether all that was in it is gone, and no more than that was sown."""
        return self.left_grams == 0

    @property
    def counted(self) -> SaidCount | None:
        """The newest count of seedlings."""
        return self.counts[-1] if self.counts else None

    @property
    def bought_grams(self) -> float | None:
        """Seed in all of its bags when they were bought, g; null where no purchase is known."""
        return sum(bag.grams for bag in self.bags) if self.bags else None

    @property
    def drawn_grams(self) -> float:
        """Seed that was sown from it, as far as that is known, g."""
        return sum(draw.grams or 0.0 for draw in self.draws)

    @property
    def trays(self) -> int:
        """Trays that were sown from it."""
        return sum(draw.trays for draw in self.draws)

    @property
    def events(self) -> list[SaidBag | Draw | SaidWeight]:
        """What was bought, drawn and weighed, in its order; a bag from the start of its day."""
        dated: list[tuple[datetime, int, SaidBag | Draw | SaidWeight]] = [
            (day_bounds(bag.bought, self.zone)[0], 0, bag) for bag in self.bags
        ]
        dated += [(draw.at, 1, draw) for draw in self.draws]
        dated += [(each.at, 2, each) for each in self.weights]
        return [each for *_, each in sorted(dated, key=lambda each: each[:2])]

    @property
    def _left(self) -> tuple[float | None, bool]:
        left, known = None, True
        for each in self.events:
            if isinstance(each, Draw):
                known = (known and each.grams is not None) or left is None
                left = None if left is None else left - (each.grams or 0.0)
            elif isinstance(each, SaidWeight):
                left, known = each.grams, True
            else:
                left = (left or 0.0) + each.grams
        return None if left is None else round(left, 3), known

    @property
    def left_grams(self) -> float | None:
        """What is left, g: bought or last weighed, less what was sown since; null where not known.

        Below 0 more was sown from it than it held.
        """
        return self._left[0]

    @property
    def exact(self) -> bool:
        """Whether the seed of every sowing since is known; else less may be left."""
        return self._left[1]

    @property
    def oldest(self) -> date | None:
        """When the first of its bags was bought; None where no purchase is known."""
        return min((bag.bought for bag in self.bags), default=None)

    def cautions(self, units: Units) -> tuple[str, ...]:
        """What is wrong with it, a sentence each."""
        left, found = self.left_grams, []
        if left is not None and left < 0:
            found.append(
                f"{grams_words(-left, units)} more was sown from seed lot {self.lot} than it held; "
                "weigh its bag, or name the other bag at the sowing."
            )
        if self.treated:
            found.append(f"Seed lot {self.lot} is treated: {TREATED}.")
        return tuple(found)


def first_in_first_out(lots: Iterable[LotStock]) -> list[LotStock]:
    """Lots with seed left, in the order in which they are to be used up: the oldest bag first."""
    held = [each for each in lots if each.bags and (each.left_grams or 0) > 0]
    return sorted(held, key=lambda each: (each.oldest or date.max, each.bags[0].entry))


def is_of(label: str, crop: str) -> bool:
    """Whether a crop's label is of a crop, named with or without its variety."""
    own, wanted = fold(label), fold(crop)
    return own == wanted or own.startswith(f"{wanted},")
