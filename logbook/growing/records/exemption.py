"""The worksheet of the qualified exemption from the produce safety rule (21 CFR 112.4 to 112.7)."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from logbook.growing.currencies import UNSET, Currency
from logbook.text import plural

YEARS = 3
ALL_FOOD = Decimal(500_000)
"""US dollars of 2011: below it on average a farm may be exempt (21 CFR 112.5(a)(2))."""
ALL_PRODUCE = Decimal(25_000)
"""US dollars of 2011: at or below it on average a farm is not covered at all (21 CFR 112.4(a))."""
SOURCES = (
    "21 CFR 112.4(a), who is covered; 112.5, who may be exempt; 112.3, qualified end users; "
    "112.6, what an exempt farm still does; 112.7, the records of it."
)
LAST_WORD = (
    "This is a worksheet, not a ruling: both amounts rise with prices since 2011 (FDA publishes "
    "them), "
    "and a state may ask for more. Ask your authority."
)
STILL = (
    "A farm that is exempt still puts its name and full address where food is sold, keeps dated "
    "receipts, and writes down each year that it has looked at this (112.6, 112.7)."
)


@dataclass(frozen=True, slots=True)
class SalesYear:
    """What was sold in a calendar year, in money; `produce` None where nobody said."""

    keys: ClassVar = "year sold to_end_users produce typed unpriced unknown"

    year: int
    sold: Decimal
    to_end_users: Decimal
    produce: Decimal | None = None
    typed: bool = True
    """Whether a person wrote it; else it is summed up from deliveries."""
    unpriced: int = 0
    """Packs that went out at no known price, which are not in it."""
    unknown: tuple[str, ...] = ()
    """Kitchens and shops of which nobody said whether they are near; counted as other buyers."""


@dataclass(frozen=True, slots=True)
class Worksheet:
    """The three years before a year, and what they say of it; null where a year isn't known."""

    keys: ClassVar = """
        year years=known missing average_sold average_to_end_users average_others average_produce
        exempt not_covered words currency=currency.code
    """

    year: int
    years: tuple[SalesYear | None, ...]
    """The three years before, the oldest first; None for one of which nothing is known."""
    all_food: Decimal = ALL_FOOD
    all_produce: Decimal = ALL_PRODUCE
    currency: Currency = UNSET

    @property
    def known(self) -> tuple[SalesYear, ...]:
        """The years of which something is known."""
        return tuple(each for each in self.years if each is not None)

    @property
    def missing(self) -> tuple[int, ...]:
        """The years of which nothing is known."""
        first = self.year - YEARS
        return tuple(first + at for at, each in enumerate(self.years) if each is None)

    def _mean(self, amounts: Sequence[Decimal | None]) -> Decimal | None:
        told = [each for each in amounts if each is not None]
        return sum(told, Decimal(0)) / YEARS if len(told) == YEARS else None

    @property
    def average_sold(self) -> Decimal | None:
        """All food sold, in a year on average."""
        return self._mean([each.sold for each in self.known])

    @property
    def average_to_end_users(self) -> Decimal | None:
        """Sold directly to qualified end users, in a year on average."""
        return self._mean([each.to_end_users for each in self.known])

    @property
    def average_others(self) -> Decimal | None:
        """Sold to all other buyers, in a year on average."""
        return self._mean([each.sold - each.to_end_users for each in self.known])

    @property
    def average_produce(self) -> Decimal | None:
        """Produce sold, in a year on average."""
        return self._mean([each.produce for each in self.known])

    @property
    def not_covered(self) -> bool | None:
        """Whether the farm sells so little produce that the rule doesn't cover it."""
        produce = self.average_produce
        return None if produce is None else produce <= self.all_produce

    @property
    def exempt(self) -> bool | None:
        """Whether the figures meet both conditions of the qualified exemption."""
        sold, direct, others = self.average_sold, self.average_to_end_users, self.average_others
        if sold is None or direct is None or others is None:
            return None
        return direct > others and sold < self.all_food

    @property
    def words(self) -> tuple[str, ...]:
        """What it comes out at, a sentence each; the last ones say who decides."""
        return (*self._outcome(), *self._gaps(), SOURCES, LAST_WORD)

    def _outcome(self) -> list[str]:
        money, sold, direct = self.currency.total, self.average_sold, self.average_to_end_users
        if sold is None or direct is None:
            years = ", ".join(map(str, self.missing))
            return [f"Not known yet: sales of {years} are missing."]
        average = (
            f"On average {money(sold)} a year, of which {money(direct)} directly to qualified "
            "end users "
            f"and {money(sold - direct)} to others."
        )
        found = [average]
        if self.not_covered and self.average_produce is not None:
            found.append(
                f"Produce of {money(self.average_produce)} a year is not above "
                f"{self.all_produce:,}: by these figures the rule doesn't cover the farm."
            )
        if self.exempt:
            found += ["By these figures the farm meets both conditions of the exemption.", STILL]
        else:
            more = (
                ""
                if direct > sold - direct
                else "others buy as much as qualified end users, or more"
            )
            much = "" if sold < self.all_food else f"sales are not below {self.all_food:,} a year"
            why = " and ".join(filter(None, (more, much)))
            found.append(f"By these figures the farm isn't exempt: {why}.")
        return found

    def _gaps(self) -> list[str]:
        found, unpriced = [], sum(each.unpriced for each in self.known)
        if unpriced:
            found.append(
                f"{plural(unpriced, 'pack')} went out at no known price and aren't counted."
            )
        unknown = dict.fromkeys(name for each in self.known for name in each.unknown)
        if unknown:
            found.append(
                f"Counted as others, as the book doesn't say they are near: {', '.join(unknown)}."
            )
        if self.currency.code not in (None, "USD"):
            found.append("The rule's amounts are in US dollars.")
        return found
