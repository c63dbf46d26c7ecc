"""What the grower says that seed and work cost, for the money of a trial."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from logbook.growing.measures import number_words
from logbook.growing.quantities import HOUR_PRICE, SEED_PRICE, WORK
from logbook.text import Refused, clean, fold

SEED, HOUR, MINUTES = "seed", "hour", "minutes"


@dataclass(frozen=True, slots=True)
class Prices:
    """Money per kg of seed and per hour of work; minutes of work a tray by arm. None: not known.

    `all_minutes` holds for every arm that is not in `minutes`.
    """

    seed_per_kg: float | None = None
    hour: float | None = None
    all_minutes: float | None = None
    minutes: Mapping[str, float] = field(default_factory=dict)

    def per_tray(
        self, seed_grams: Mapping[str, float], arms: Sequence[str]
    ) -> dict[str, dict[str, float]]:
        """Seed and work → arm → what a tray costs, as far as both price and amount are known."""
        parts = {}
        if self.seed_per_kg is not None:
            each = self.seed_per_kg / 1000
            parts["seed"] = {arm: each * grams for arm, grams in seed_grams.items()}
        if self.hour is not None:
            spent = {arm: self.minutes.get(arm, self.all_minutes) for arm in arms}
            parts["work"] = {
                arm: self.hour * one / 60 for arm, one in spent.items() if one is not None
            }
        return parts

    @property
    def lacking(self) -> list[str]:
        """Name what is not given at all."""
        prices = {"the price of seed": self.seed_per_kg, "hours of work": self.hour}
        return [name for name, price in prices.items() if price is None]


def prices_from(
    arms: Sequence[str], seed_per_kg: float | None = None, hour: float | None = None,
    minutes: Mapping[str, float] | None = None,
) -> Prices:  # fmt: skip
    """Check prices; in `minutes` the name '' stands for all arms.

    Raises:
        Refused: a value out of range, an arm that the trial has not, or one of hour and minutes
            without the other.
    """
    given = dict(minutes or {})
    names = {fold(arm): arm for arm in arms}
    each = ((SEED_PRICE, seed_per_kg), (HOUR_PRICE, hour), *((WORK, one) for one in given.values()))
    for quantity, value in each:
        if value is not None:
            quantity.checked(value)
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
    """Read "seed 12.50; hour 15; minutes 3; thick 4"; nothing is no prices.

    "minutes" holds for all arms, an arm's name before a number gives its own minutes.

    Raises:
        Refused: a part that is no name with a number, or prices that cannot be.
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
    given = (
        (SEED, prices.seed_per_kg), (HOUR, prices.hour), (MINUTES, prices.all_minutes),
        *prices.minutes.items(),
    )  # fmt: skip
    return "; ".join(f"{name} {number_words(one, 9)}" for name, one in given if one is not None)
