"""What electricity costs: tariffs by the date from which they hold, with hours at another price."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, fields
from datetime import UTC, date, datetime, timedelta, tzinfo
from decimal import Decimal
from itertools import pairwise
from typing import ClassVar, Self

from logbook.growing.currencies import UNSET, Currency, exact
from logbook.growing.days import wall
from logbook.growing.measures import number_words
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


class Summed:
    """Records that are added up field by field."""

    __slots__ = ()

    def __add__(self, other: Self) -> Self:
        names = [each.name for each in fields(self)]  # type: ignore[arg-type]
        return type(self)(*(getattr(self, name) + getattr(other, name) for name in names))


@dataclass(frozen=True, slots=True)
class Bill(Summed):
    """Energy and its cost; `unpriced_kwh` fell before the first tariff and is not in the cost."""

    kwh: float = 0.0
    cost: Decimal = Decimal(0)
    """In the book's currency."""
    unpriced_kwh: float = 0.0
    """Used when no price was known."""

    def words(self, money: Currency) -> str:
        """One line for the grower, the missing price said."""
        line = f"{number_words(self.kwh, 2)} kWh, {money.total(self.cost)}"
        if self.unpriced_kwh > 0:
            line += (
                f"; no tariff covers {number_words(self.unpriced_kwh, 2)} kWh of it, "
                "so the real cost is higher: add the tariff of those days"
            )
        return line


def bill(
    watts: float, lit: Iterable[tuple[datetime, datetime]], tariffs: Sequence[Tariff], zone: tzinfo
) -> Bill:
    """Price what some watts used over lit spans (aware start and end, not overlapping)."""
    if watts < 0:
        raise Refused("Watts must be 0 or more.")
    ordered = _ordered(tariffs)
    energy = unpriced = 0.0
    watt_seconds_cost = Decimal(0)
    for start, end in lit:
        for low, high, price in _pieces(start.astimezone(UTC), end.astimezone(UTC), ordered, zone):
            seconds = (high - low).total_seconds()
            used = watts * seconds / 3_600_000
            energy += used
            if price is None:
                unpriced += used
            else:
                watt_seconds_cost += exact(watts) * exact(seconds) * price
    return Bill(energy, watt_seconds_cost / 3_600_000, unpriced)


def price_at(tariffs: Sequence[Tariff], moment: datetime, zone: tzinfo) -> Decimal | None:
    """The price per kWh at a moment; None before the first tariff."""
    day, just_after = moment.astimezone(zone).date(), moment + timedelta.resolution
    holding = [tariff for tariff in _ordered(tariffs) if tariff.since <= day]
    if not holding:
        return None
    others = holding[-1].others
    in_force = (one.per_kwh for one in others if any(runs(one.hours, moment, just_after, zone)))
    return max(in_force, default=holding[-1].per_kwh)


def _ordered(tariffs: Sequence[Tariff]) -> list[Tariff]:
    ordered = sorted(tariffs, key=lambda tariff: tariff.since)
    for earlier, later in pairwise(ordered):
        if earlier.since == later.since:
            raise Refused(f"Two tariffs hold from {later.since}; keep one of them.")
    return ordered


def _pieces(
    start: datetime, end: datetime, ordered: Sequence[Tariff], zone: tzinfo
) -> Iterable[tuple[datetime, datetime, Decimal | None]]:
    others = [other.hours for tariff in ordered for other in tariff.others]
    cuts = {start, end, *(wall(tariff.since, 0, zone) for tariff in ordered)}
    cuts |= {cut for hours in others for run in runs(hours, start, end, zone) for cut in run}
    for low, high in pairwise(sorted(cut for cut in cuts if start <= cut <= end)):
        yield low, high, price_at(ordered, low, zone)
