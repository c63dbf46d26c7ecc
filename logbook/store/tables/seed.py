"""Seed: bags as they were bought, seedlings that were counted, bags that were weighed."""

from datetime import date

from logbook.store.tables.base import OfEntry


class SeedBagRow(OfEntry, table=True):
    """A bag of a seed lot as an entry of kind "seed" says: bought on a day, g, for a price as typed.

    `germination_percent` is the label's, of a test on the day `tested`. NULL was not said.
    """

    __tablename__ = "seed_bag"
    lot: str
    crop: str
    grams: float
    bought: date
    supplier: str = ""
    price: str | None = None
    germination_percent: float | None = None
    tested: date | None = None
    treated: bool | None = None
    for_food: bool | None = None
    organic: bool | None = None


class SeedTestRow(OfEntry, table=True):
    """Of so many seeds of a lot that were put to germinate, how many came up."""

    __tablename__ = "seed_test"
    lot: str
    sown: int
    up: int


class SeedWeightRow(OfEntry, table=True):
    """What was left of a seed lot when its bag was weighed, g; 0 when it was empty."""

    __tablename__ = "seed_weight"
    lot: str
    grams: float
