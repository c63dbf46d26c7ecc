"""What some watts cost over the hours in which they were drawn."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from datetime import UTC, datetime, tzinfo
from decimal import Decimal
from itertools import pairwise
from typing import Self

from logbook.growing.currencies import Currency, exact
from logbook.growing.days import wall
from logbook.growing.measures import number_words
from logbook.growing.room.tariffs import Tariff, ordered_tariffs, price_at
from logbook.growing.wall_hours import runs
from logbook.text import Refused


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

    @property
    def known_cost(self) -> Decimal | None:
        """What is known of its cost; None where no price covers any of it."""
        return None if 0 < self.kwh <= self.unpriced_kwh else self.cost

    def cost_words(self, money: Currency, unset: str = "price not set") -> str:
        """Its cost, or that no price is set."""
        return unset if self.known_cost is None else money.total(self.cost)

    def brief(self, money: Currency, digits: int = 2) -> str:
        """Energy to so many digits and its cost; no energy has none, whatever the price may be."""
        kwh = f"{number_words(self.kwh, digits)} kWh"
        return f"{kwh}, {self.cost_words(money)}" if self.kwh else kwh

    def words(self, money: Currency) -> str:
        """One line for the grower, the missing price said."""
        line = self.brief(money)
        if self.unpriced_kwh > 0 and self.known_cost is not None:
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
    ordered = ordered_tariffs(tariffs)
    energy = unpriced = 0.0
    watt_seconds_cost = Decimal(0)
    for start, end in lit:
        for low, high, price in pieces(start.astimezone(UTC), end.astimezone(UTC), ordered, zone):
            seconds = (high - low).total_seconds()
            used = watts * seconds / 3_600_000
            energy += used
            if price is None:
                unpriced += used
            else:
                watt_seconds_cost += exact(watts) * exact(seconds) * price
    return Bill(energy, watt_seconds_cost / 3_600_000, unpriced)


def pieces(
    start: datetime, end: datetime, ordered: Sequence[Tariff], zone: tzinfo
) -> Iterable[tuple[datetime, datetime, Decimal | None]]:
    """Cut start to end where the price per kWh changes; with the price of each, None for unknown."""
    others = [other.hours for tariff in ordered for other in tariff.others]
    cuts = {start, end, *(wall(tariff.since, 0, zone) for tariff in ordered)}
    cuts |= {cut for hours in others for run in runs(hours, start, end, zone) for cut in run}
    for low, high in pairwise(sorted(cut for cut in cuts if start <= cut <= end)):
        yield low, high, price_at(ordered, low, zone)
