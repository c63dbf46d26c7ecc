"""The gap in money beside the gap in grams: what 100 g cost in each arm, as far as it is known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from statistics import fmean

from logbook.growing.currencies import UNSET, Currency
from logbook.growing.measures import number_words
from logbook.growing.numbers import numbers_words
from logbook.growing.quantities import HOUR_PRICE, SEED_PRICE, WORK
from logbook.growing.trials.arms import Arm
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.words import joined
from logbook.text import Refused, clean, fold, listed


@dataclass(frozen=True, slots=True)
class Costs:
    """Arm → money per 100 g and per tray over the parts known for every arm, and what is missing."""

    per_100_g: Mapping[str, float]
    counted: tuple[str, ...]
    missing: tuple[str, ...]
    words: str
    money: Currency = UNSET
    per_tray: Mapping[str, float] = field(default_factory=dict)


def trial_costs(
    records: Sequence[TrayRecord], arms: Sequence[Arm], prices: Prices, *, shown: bool,
    money: Currency = UNSET,
) -> Costs:  # fmt: skip
    """Reckon what 100 g cost in each arm of a trial in light, seed and work.

    `shown` says that the arms are shown to differ in weight.
    """
    means = {arm.name: arm.mean for arm in arms if arm.mean}
    weighed = [each for each in records if each.grams and not each.left_out and each.arm in means]
    light, notes = per_tray(
        "light",
        [
            (each.name, each.arm, None if cost is None else float(cost), each.around.lamp_lack)
            for each in weighed
            for cost in (each.around.lamp_cost,)
        ],
    )
    why = "the seed weight is not known"
    seed, no_seed = per_tray(
        "seed", [(each.name, each.arm, each.seed_grams, why) for each in weighed]
    )
    notes += no_seed if prices.seed_per_kg is not None else []
    cut = [each for each in records if each.state.status == "cut" and not each.left_out]
    lost = [
        each
        for each in records
        if each.grams == 0 or (each.state.status == "discarded" and not each.state.grams)
    ]
    for aside, why in (
        ([each for each in cut if each.grams is None], "not weighed"),
        (lost, "nothing was cut from them; their seed, work and light come on top"),
    ):
        if aside and means:
            numbers = numbers_words(each.name for each in aside)
            notes.append(f"Left out of the costs ({why}): {numbers}.")
    parts = {**prices.per_tray(seed, list(means)), "light": light}
    return costs_of(means, parts, shown=shown, missing=prices.lacking, notes=notes, money=money)


def per_tray(
    part: str, trays: Sequence[tuple[int, str, float | None, str]]
) -> tuple[dict[str, float], list[str]]:
    """Arm → mean of a part over the trays of which it is known, and sentences on the others.

    `trays` are (name, arm, what it cost or took, why that is None).
    """
    values: dict[str, list[float]] = {}
    lacking: dict[str, dict[int, str]] = {}
    for name, arm, value, why in trays:
        if value is None:
            lacking.setdefault(why, {})[name] = arm
        else:
            values.setdefault(arm, []).append(value)
    said = []
    for why, arms in lacking.items():
        which = f"{'tray' if len(arms) == 1 else 'trays'} {numbers_words(arms)}"
        of = listed(list(dict.fromkeys(arms.values())), most=4)
        known = values.keys() & set(arms.values())
        rest = "; the average of the arm's other trays is used" if known else ""
        said.append(f"{part.capitalize()} is not known for {which} ({of}): {why}{rest}.")
    return {arm: fmean(each) for arm, each in values.items()}, said


def costs_of(
    means: Mapping[str, float], parts: Mapping[str, Mapping[str, float]], *, shown: bool,
    missing: Sequence[str] = (), notes: Sequence[str] = (), money: Currency = UNSET,
) -> Costs:  # fmt: skip
    """Reckon what 100 g cost in each arm, from arm → mean g and part → arm → money per tray.

    Where the weights are not shown to differ every arm is given the same mean, because a gap that
    may be chance must not make money. `missing` are parts of which nothing is known; `notes`
    stand at the end.
    """
    whole = {
        name: by_arm for name, by_arm in parts.items() if means and by_arm.keys() >= means.keys()
    }
    lacking = [*(name for name in parts if name not in whole), *missing]
    if not whole:
        are = "is" if len(lacking) == 1 else "are"
        said = f"Nothing can be said about costs: {listed(lacking)} {are} not known."
        return Costs({}, (), tuple(lacking), joined(said if lacking else "", *notes), money)
    grams = means if shown else dict.fromkeys(means, fmean(means.values()))
    per_tray = {arm: sum(by_arm[arm] for by_arm in whole.values()) for arm in means}
    per_100 = {arm: 100 * per_tray[arm] / grams[arm] for arm in means}
    said = joined(_words(per_100, list(whole), lacking, money, shown=shown), *notes)
    return Costs(per_100, tuple(whole), tuple(lacking), said, money, per_tray)


def _words(
    per_100: Mapping[str, float], names: list[str], lacking: list[str], money: Currency, *,
    shown: bool,
) -> str:  # fmt: skip
    each = listed([f"{arm} {money.rate(cost)}" for arm, cost in per_100.items()], most=6)
    alike = "" if shown else " (the same weight taken for all, as no difference in weight is shown)"
    first = max(per_100, key=lambda arm: per_100[arm])
    last = min(per_100, key=lambda arm: per_100[arm])
    gap = per_100[first] - per_100[last]
    least = 0.05 / 10**money.digits  # what is less is not in the digits that are shown
    return joined(
        f"Per 100 g cut, {listed(names)} cost{'s' if len(names) == 1 else ''}: {each}{alike}.",
        f"{first} costs {money.rate(gap)} more than {last}." if gap >= least else "",
        f"Not included, because not known: {listed(lacking)}." if lacking else "",
    )


SEED, HOUR, MINUTES = "seed", "hour", "minutes"


@dataclass(frozen=True, slots=True)
class Prices:
    """Money per kg of seed and per hour of work; minutes of work a tray by arm. None: not known.

    `all_minutes` holds for every arm that is not in `minutes`.
    """

    seed_per_kg: Decimal | None = None
    hour: Decimal | None = None
    all_minutes: float | None = None
    minutes: Mapping[str, float] = field(default_factory=dict)

    def per_tray(
        self, seed_grams: Mapping[str, float], arms: Sequence[str]
    ) -> dict[str, dict[str, float]]:
        """Seed and work → arm → what a tray costs, as far as both price and amount are known."""
        parts = {}
        if self.seed_per_kg is not None:
            each = float(self.seed_per_kg) / 1000
            parts["seed"] = {arm: each * grams for arm, grams in seed_grams.items()}
        if self.hour is not None:
            spent = {arm: self.minutes.get(arm, self.all_minutes) for arm in arms}
            parts["work"] = {
                arm: float(self.hour) * one / 60 for arm, one in spent.items() if one is not None
            }
        return parts

    @property
    def lacking(self) -> list[str]:
        """Name what is not given at all."""
        prices = {"the price of seed": self.seed_per_kg, "hours of work": self.hour}
        return [name for name, price in prices.items() if price is None]


def prices_from(
    arms: Sequence[str], seed_per_kg: Decimal | None = None, hour: Decimal | None = None,
    minutes: Mapping[str, float] | None = None,
) -> Prices:  # fmt: skip
    """Check prices, or raise Refused; in `minutes` the name '' stands for all arms."""
    given = dict(minutes or {})
    names = {fold(arm): arm for arm in arms}
    for price, amount in ((SEED_PRICE, seed_per_kg), (HOUR_PRICE, hour)):
        if amount is not None:
            price.checked(amount)
    for value in given.values():
        WORK.checked(value)
    for name in given:
        if name and fold(name) not in names:
            there = ", ".join(arms[:8])
            raise Refused(f'There is no arm "{name[:40]}"; the arms are {there}.')
    if (hour is None) != (not given):
        raise Refused("Work needs both: what an hour costs, and the minutes a tray takes.")
    everyone = given.pop("", None)
    return Prices(
        seed_per_kg, hour, everyone, {names[fold(arm)]: own for arm, own in given.items()}
    )


def read_prices(text: str, arms: Sequence[str]) -> Prices:
    """Read "seed 12.50; hour 15; minutes 3; thick 4", or raise Refused; nothing is no prices.

    "minutes" holds for all arms, an arm's name before a number gives its own minutes.
    """
    words = clean(text, lines=False)
    seed = hour = None
    minutes: dict[str, float] = {}
    for part in filter(None, map(str.strip, words.split(";" if ";" in words else ","))):
        name, _, value = part.rpartition(" ")
        name = name.strip().rstrip("=:").strip()
        if not name:
            raise Refused(f'"{part[:40]}" must be like seed 12.50 or minutes 3.')
        if fold(name) == SEED:
            seed = SEED_PRICE.read(value)
        elif fold(name) == HOUR:
            hour = HOUR_PRICE.read(value)
        else:
            minutes["" if fold(name) == MINUTES else name] = WORK.read(value)
    return prices_from(arms, seed, hour, minutes)


def prices_text(prices: Prices) -> str:
    """Write prices as they are typed, to the last digit: they are read again from it."""
    given = [(SEED, SEED_PRICE.text(prices.seed_per_kg)), (HOUR, HOUR_PRICE.text(prices.hour))]
    minutes = ((MINUTES, prices.all_minutes), *prices.minutes.items())
    given += [(name, number_words(one, 9)) for name, one in minutes if one is not None]
    return "; ".join(f"{name} {value}" for name, value in given if value)
