"""What a grower says that things cost, or take: each a rate from a day on, of all crops or of one."""

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from logbook.growing.currencies import UNSET, Currency
from logbook.growing.measures import amount
from logbook.text import Refused, clean, fold, nearest

MINUTES = "minutes-"
MOST = {"": 1_000_000, "min": 1_440, "g": 100_000}
"""Of a rate, by its unit."""


@dataclass(frozen=True, slots=True)
class Rate:
    """A kind of rate: what it is per, and whether it is money, minutes or grams."""

    name: str
    per: str
    meaning: str
    unit: str = ""
    """"min" or "g"; '' for money."""

    def words(self, value: Decimal, money: Currency) -> str:
        """Write one: "0.35 EUR per tray", "0.5 min per tray"."""
        much = f"{value:f} {self.unit}" if self.unit else money.price(value)
        return f"{much} per {self.per}"


_CHORES = {
    "soak": "washing and soaking its seed", "sow": "sowing it", "water": "watering it once",
    "look": "looking at it once", "change": "taking a weight or lid off, moving it under lights",
    "cut": "cutting and weighing it", "clean": "cleaning it afterwards",
}  # fmt: skip
RATES = {
    rate.name: rate
    for rate in (
        Rate("wage", "hour", "an hour of work; 0 if nobody is paid"),
        *(Rate(f"{MINUTES}{name}", "tray", each, "min") for name, each in _CHORES.items()),
        Rate(f"{MINUTES}pack", "pack", "filling, weighing and labelling a pack", "min"),
        Rate("medium", "tray", "soil, mat or other medium of a tray"),
        Rate("wear", "tray", "wear of trays and lids"),
        Rate("seed", "kg", "seed of lots whose price isn't known"),
        Rate("water", "1,000 l", "water that was given, where its amount was written"),
        Rate("pack", "pack", "an empty pack"),
        Rate("label", "pack", "a label"),
        Rate("pack-grams", "pack", "what goes into a pack", "g"),
        Rate("overhead", "slot-day", "rent, insurance and the rest, per slot-day"),
        Rate("sale", "kg", "what a kilogram sells for, where no order says it"),
    )
}
"""All kinds of rates by name."""


@dataclass(frozen=True, slots=True)
class CostRate:
    """A rate as it was said: from which day on, of which crop (template id) or of all."""

    keys: ClassVar = "name crop per unit price=amount since words"

    name: str
    amount: Decimal
    since: date
    template_id: int | None = None
    crop: str = ""
    """The crop's name; '' for all."""
    money: Currency = UNSET

    @property
    def per(self) -> str:
        """What it is per."""
        return RATES[self.name].per

    @property
    def unit(self) -> str:
        """Its unit: the book's currency, "min" or "g"."""
        return RATES[self.name].unit or self.money.code or ""

    @property
    def words(self) -> str:
        """Say it: "medium 0.35 EUR per tray, from 2026-04-01"."""
        of = f" of {self.crop}" if self.crop else ""
        return (
            f"{self.name}{of} {RATES[self.name].words(self.amount, self.money)}, from {self.since}"
        )


def rate_name(text: str) -> str:
    """The name of a kind of rate; raises Refused for none."""
    name = fold(clean(text, lines=False)).replace(" ", "-")
    if name not in RATES:
        raise Refused(
            f'"{text.strip()[:40]}" isn\'t a cost that can be set.{nearest(text, list(RATES))} '
            f"They are {', '.join(RATES)}."
        )
    return name


def rate_amount(name: str, text: str) -> Decimal:
    """Read what a rate is, exactly as typed; raises Refused."""
    unit = RATES[name].unit
    signs = dict.fromkeys(map(ord, "$€£¥"))
    given = amount(text.translate(signs), name, "12" if unit else "0.35")
    if given.unit.casefold() not in ("", unit, *(("minutes", "mins") if unit == "min" else ())):
        raise Refused(f"{name} is {f'in {unit}' if unit else 'money'}; write the number alone.")
    most = MOST[unit]
    if not 0 <= given.exact <= most or (name == "pack-grams" and not given.exact):
        least = "more than 0" if name == "pack-grams" else "0 or more"
        raise Refused(f"{name} must be {least}, at most {most:,}; you wrote {given.exact}.")
    return given.exact


class Rates:
    """All rates that were said, asked for by name, crop and day."""

    def __init__(self, said: Iterable[CostRate]) -> None:
        """Take them in the order in which they were written; the last of a day holds."""
        self._by: dict[tuple[str, int | None], tuple[list[date], list[Decimal]]] = {}
        for one in sorted(said, key=lambda one: one.since):
            days, amounts = self._by.setdefault((one.name, one.template_id), ([], []))
            days.append(one.since)
            amounts.append(one.amount)

    def of(self, name: str, template: int | None, day: date) -> Decimal | None:
        """What holds on a day of a crop (template id): its own rate, else that of all; None for none."""
        for whose in (template, None):
            days, amounts = self._by.get((name, whose), ((), ()))
            at = bisect_right(days, day)
            if at:
                return amounts[at - 1]
        return None
