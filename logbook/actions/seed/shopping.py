"""The shopping list: what the sowings of the weeks to come need and what is left of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.planning.plan import plan
from logbook.actions.seed.needs import planned_trays, seed_needs
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.currencies import Currency
from logbook.growing.planning.seed_need import SeedNeed
from logbook.growing.quantities import LEAD_DAYS
from logbook.growing.seed.bags import SaidBag, is_of
from logbook.growing.seed.pace import SeedPace, seed_paces
from logbook.growing.seed.shopping import MediumToBuy, SeedToBuy, merged
from logbook.store.reads.seed import read_bags

WEEKS = 4
LEAD = 7
"""Days from an order to the bag, where nothing else is said (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """What to buy for the sowings of some weeks: those planned, and those that the plan asks for."""

    keys: ClassVar = "weeks until lead_days seed paces media currency=money.code"

    weeks: int
    until: date
    lead_days: int
    seed: tuple[SeedToBuy, ...]
    media: tuple[MediumToBuy, ...]
    money: Currency
    paces: tuple[SeedPace, ...] = ()
    """How long seed lasts at the pace of its use, where those sowings don't use it up."""

    @property
    def ending(self) -> tuple[tuple[date, SeedPace], ...]:
        """The seed that no sowing uses up but its pace does, with the day by which to order, within the weeks."""
        every = ((each.buy_by(self.lead_days), each) for each in self.paces)
        return tuple(sorted(((by, each) for by, each in every if by and by < self.until),
                            key=lambda one: (one[0], one[1].crop)))  # fmt: skip

    @property
    def today(self) -> date:
        """The day of the list."""
        return self.until - timedelta(days=7 * self.weeks)

    @property
    def short(self) -> tuple[SeedToBuy, ...]:
        """The seed that is to be bought, what is needed first on top."""
        short = [each for each in self.seed if each.buy_grams]
        return tuple(sorted(short, key=lambda each: (each.buy_by or date.max, each.crop)))


def shopping_list(book: Book, weeks: int = WEEKS, lead_days: int = LEAD) -> ShoppingList:
    """What to buy for so many weeks, where a bag takes `lead_days` to come. Raises Refused for odd numbers."""
    LEAD_DAYS.checked(lead_days)
    asked = plan(book, weeks).sowings
    with book.reading() as reading:
        until = reading.today + timedelta(days=7 * weeks)
        sowings = [
            (each.template.label(), each.day, (each.template.seed_grams or 0.0) * each.sowing.trays)
            for each in asked
        ]
        needs = seed_needs(reading, sowings, until)
        media = [(each.template.medium, each.sowing.trays) for each in asked]
        media += [(each.template.medium, 1) for each, day in planned_trays(reading) if day < until]
        bags = [bag for bag in read_bags(reading) if not bag.treated]
        seed = tuple(_priced(need, bags, lead_days) for need in needs)
        lots = lots_in_stock(reading)
        paces = seed_paces(lots, needs, reading.now, reading.today, until)
        return ShoppingList(
            weeks, until, lead_days, seed, tuple(merged(media)), reading.about.money, tuple(paces)
        )


def _priced(need: SeedNeed, bags: Sequence[SaidBag], lead_days: int) -> SeedToBuy:
    """With who sold the newest bag of the crop, and for how much."""
    own = [bag for bag in bags if is_of(bag.crop, need.crop)]
    if not own:
        return SeedToBuy(need, lead_days)
    return SeedToBuy(need, lead_days, own[-1].supplier, own[-1].price_per_kg)
