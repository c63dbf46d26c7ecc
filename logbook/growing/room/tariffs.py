"""What electricity costs: tariffs by the date from which they hold, with hours at another price."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, tzinfo
from decimal import Decimal
from itertools import pairwise
from typing import ClassVar

from logbook.growing.currencies import UNSET, Currency
from logbook.growing.quantities import PRICE
from logbook.growing.wall_hours import WallHours, runs
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class OtherHours:
    """Hours of the day at another price per kWh, dearer or cheaper than the rest."""

    keys: ClassVar = "hours=hours.words price_per_kwh=per_kwh"

    hours: WallHours
    per_kwh: Decimal


@dataclass(frozen=True, slots=True)
class Tariff:
    """A price per kWh until the next tariff's day; where other hours overlap, the dearest holds."""

    keys: ClassVar = "from=since price_per_kwh=per_kwh currency=money.code other_hours=others words"

    since: date
    """From which day it counts."""
    per_kwh: Decimal
    """In the book's currency."""
    others: tuple[OtherHours, ...] = ()
    money: Currency = field(default=UNSET, compare=False)

    def __post_init__(self) -> None:
        for price in (self.per_kwh, *(other.per_kwh for other in self.others)):
            PRICE.checked(price)

    @property
    def words(self) -> str:
        """Say it: "0.30 EUR per kWh from 2026-01-01, 0.40 EUR at 17:00–20:00"."""
        price = self.money.price
        others = (f"{price(each.per_kwh)} at {each.hours.words}" for each in self.others)
        return ", ".join((f"{price(self.per_kwh)} per kWh from {self.since}", *others))


def price_at(tariffs: Sequence[Tariff], moment: datetime, zone: tzinfo) -> Decimal | None:
    """The price per kWh at a moment; None before the first tariff."""
    day, just_after = moment.astimezone(zone).date(), moment + timedelta.resolution
    holding = [tariff for tariff in ordered_tariffs(tariffs) if tariff.since <= day]
    if not holding:
        return None
    others = holding[-1].others
    in_force = (one.per_kwh for one in others if any(runs(one.hours, moment, just_after, zone)))
    return max(in_force, default=holding[-1].per_kwh)


def ordered_tariffs(tariffs: Sequence[Tariff]) -> list[Tariff]:
    """By their first days; raises Refused where two have the same."""
    ordered = sorted(tariffs, key=lambda tariff: tariff.since)
    for earlier, later in pairwise(ordered):
        if earlier.since == later.since:
            raise Refused(f"Two tariffs start on {later.since}; keep one of them.")
    return ordered
