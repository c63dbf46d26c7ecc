"""What a batch cost, part by part, work first as the biggest; what isn't known is not known, never 0."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from logbook.growing.costs.rates import MINUTES, Rates
from logbook.growing.currencies import Currency, exact
from logbook.growing.keys import BatchNumber
from logbook.text import listed

CENT_PARTS = Decimal("0.0001")
"""Each part is rounded to this, so that parts add up to the whole to the last digit."""


@dataclass(frozen=True, slots=True)
class Used:
    """What a batch used: grams, kWh in money, slot-days, chores by tray. None where it isn't known."""

    template: int
    sown: date
    cut: date
    trays: int
    grams: float
    seed_grams: float | None
    seed_cost: Decimal | None
    """By the price of its lots."""
    electricity: Decimal | None
    water_ml: float | None
    slot_days: float
    chores: Mapping[str, int]
    """How often each chore was done, counted by tray."""


@dataclass(frozen=True, slots=True)
class CostPart:
    """A part of the costs; money is None where it isn't known."""

    part: str
    money: Decimal | None


@dataclass(frozen=True, slots=True)
class Costs:
    """What trays cost together. `total` is of the known parts; None where there is none."""

    keys: ClassVar = "parts total unknown per_tray per_100_grams currency=currency.code"

    parts: tuple[CostPart, ...]
    unknown: tuple[str, ...]
    """What would have to be known for all of it."""
    trays: int
    grams: float
    currency: Currency

    @property
    def total(self) -> Decimal | None:
        """The sum of the known parts; None where nothing but a 0 is known."""
        known = [one.money for one in self.parts if one.money is not None]
        return sum(known, Decimal(0)) if any(known) or (known and not self.unknown) else None

    @property
    def per_tray(self) -> Decimal | None:
        """That by tray sown."""
        return None if self.total is None or not self.trays else self.total / self.trays

    @property
    def per_100_grams(self) -> Decimal | None:
        """That by 100 g cut."""
        known = self.total is not None and self.grams > 0
        return 100 * self.total / exact(self.grams) if known and self.total is not None else None

    @property
    def words(self) -> str:
        """Say it: "3.20 EUR, 1.070 EUR per tray, 0.640 EUR per 100 g"; '' where nothing is known."""
        money = self.currency
        return ", ".join(
            f"{write(each)}{per}"
            for write, each, per in (
                (money.total, self.total, ""), (money.rate, self.per_tray, " per tray"),
                (money.rate, self.per_100_grams, " per 100 g"),
            )
            if each is not None
        )  # fmt: skip

    @property
    def unknown_words(self) -> str:
        """Say what isn't in it; '' where all is known."""
        return f"not known: {unknown_words(self.unknown)}" if self.unknown else ""


@dataclass(frozen=True, slots=True)
class BatchCosts:
    """What a batch cost."""

    keys: ClassVar = "batch crop trays=costs.trays grams=costs.grams *costs"

    batch: BatchNumber
    crop: str
    costs: Costs


def unknown_words(unknown: Iterable[str]) -> str:
    """Name what isn't known, the minutes of all chores together: "wage and minutes (sow, cut)"."""
    names = list(dict.fromkeys(unknown))
    chores = [name.removeprefix(MINUTES) for name in names if name.startswith(MINUTES)]
    rest = [name for name in names if not name.startswith(MINUTES)]
    if len(chores) > 1:
        rest.append(f"minutes ({', '.join(chores)})")
    else:
        rest += [f"{MINUTES}{name}" for name in chores]
    return listed(rest, most=20)


def packs_of(used: Used, rates: Rates) -> int | None:
    """How many whole packs its grams fill; None where the size isn't known."""
    size = rates.of("pack-grams", used.template, used.cut)
    return None if size is None else int(exact(used.grams) / size)


def parts_of(used: Used, rates: Rates) -> tuple[tuple[CostPart, ...], tuple[str, ...]]:
    """The parts of what a batch cost, and what is missing for all of it.

    Rates are those of the day of sowing, of packing those of the day of the cut.
    """
    unknown: list[str] = []

    def rate(name: str, day: date) -> Decimal | None:
        found = rates.of(name, used.template, day)
        if found is None:
            unknown.append(name)
        return found

    def times(name: str, much: Decimal | int | None, day: date = used.sown) -> Decimal | None:
        if much == 0:
            return Decimal(0)
        each = rate(name, day)
        return None if each is None or much is None else each * much

    seed = used.seed_cost
    if seed is None:
        kilos = None if used.seed_grams is None else exact(used.seed_grams) / 1000
        seed = times("seed", kilos)
        if seed is None and kilos is None:
            unknown.append("grams of seed")
    packs = packs_of(used, rates)
    if packs is None and used.grams:
        unknown.append("pack-grams")
    packs = 0 if not used.grams else packs
    water = None if used.water_ml is None else exact(used.water_ml) / 1_000_000
    if water is None:
        unknown.append("amounts of water")
    if used.electricity is None:
        unknown.append("electricity")
    parts = (
        ("work", _work(used, rates, packs, unknown)), ("seed", seed), ("medium", times("medium", used.trays)), ("wear", times("wear", used.trays)),
        ("water", None if water is None else times("water", water)),
        ("electricity", used.electricity),
        ("packs", times("pack", packs, used.cut)), ("labels", times("label", packs, used.cut)),
        ("overhead", times("overhead", exact(used.slot_days))),
    )  # fmt: skip
    rounded = tuple(
        CostPart(name, None if money is None else money.quantize(CENT_PARTS))
        for name, money in parts
    )
    return rounded, tuple(dict.fromkeys(unknown))


def _work(used: Used, rates: Rates, packs: int | None, unknown: list[str]) -> Decimal | None:
    """Money for the minutes that are known; None where the wage, or every minute, isn't."""
    wage = rates.of("wage", used.template, used.sown)
    if wage == 0:
        return Decimal(0)
    done = [(name, count, used.sown) for name, count in used.chores.items() if count]
    done += [("clean", used.trays, used.cut)]
    done += [("pack", packs, used.cut)] if packs else []
    minutes, known = Decimal(0), False
    for name, count, day in done:
        each = rates.of(f"{MINUTES}{name}", used.template, day)
        if each is None:
            unknown.append(f"{MINUTES}{name}")
        else:
            minutes, known = minutes + each * count, True
    if wage is None:
        unknown.append("wage")
    return wage * minutes / 60 if wage is not None and known else None


def summed(several: Sequence[Costs]) -> Costs:
    """Costs of batches together: a part is known where it is known of each."""
    names = list(dict.fromkeys(one.part for each in several for one in each.parts))
    parts = []
    for name in names:
        money = [one.money for each in several for one in each.parts if one.part == name]
        known = [one for one in money if one is not None]
        parts.append(CostPart(name, sum(known, Decimal(0)) if len(known) == len(money) else None))
    unknown = dict.fromkeys(one for each in several for one in each.unknown)
    return Costs(
        tuple(parts), tuple(unknown), sum(each.trays for each in several),
        sum(each.grams for each in several), several[0].currency,
    )  # fmt: skip
