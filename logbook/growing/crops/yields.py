"""Expected weights: a template's guess, outweighed by this room's own batches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import ClassVar, NamedTuple

from logbook.growing.crops.luck import BatchWeights, Guess, Load, Luck, luck_of, together
from logbook.growing.crops.templates import CropTemplate
from logbook.text import listed, plural

NEWEST_TRAYS, NEWEST_BATCHES = 40, 6
"""A crop's weights are expected from so many trays and batches: a room's yield drifts, and older ones
tell of another room."""


@dataclass(frozen=True, slots=True)
class Expected:
    """What trays are expected to weigh together, g, and what that is based on."""

    keys: ClassVar = """
        expected_grams=grams spread_grams low_grams=low high_grams=high rests_on_trays=trays
        rests_on_batches=batches allows_for=by
    """

    grams: float
    spread_grams: float
    """One standard deviation of what they may weigh, g: all that is not known is in it."""
    low: float
    """4 times in 5 it is from here, g."""
    high: float
    """4 times in 5 it is up to here, g."""
    trays: int = 0
    """On how many of this room's trays it is based."""
    batches: int = 0
    """On how many of this room's batches it is based."""
    by: tuple[str, ...] = ()
    """What of shelf, seed and season is allowed for."""
    seed: str = ""
    """How the trays that this is based on were sown beside these, where it isn't allowed for."""

    def rest(self, cut_grams: float) -> Expected:
        """What is left to expect of a tray of which so many g were cut already."""
        if not cut_grams:
            return self
        left = [max(0.0, end - cut_grams) for end in (self.grams, self.low, self.high)]
        return replace(self, grams=left[0], low=left[1], high=left[2])

    @property
    def basis(self) -> str:
        """Say shortly what the number is based on: "12 batches", or that it is a guess."""
        return plural(self.batches, "batch", "batches") if self.trays else "guess"

    @property
    def rests_on(self) -> str:
        """Say what the number is based on."""
        if not self.trays:
            return "from the template's guess"
        by = f", by {listed(self.by)}" if self.by else ""
        return f"from {self.basis} here{by}{f', sown with {self.seed}' if self.seed else ''}"


class Meant(NamedTuple):
    """A tray whose weight is asked for: its crop's luck, its batch, and what was cut of it, g.

    It gives `factor` times the crop's mean, `by` what it had, `seed` as in Expected (see conditions.py).
    """

    luck: Luck | None
    batch: int
    cut: float = 0.0
    factor: float = 1.0
    by: tuple[str, ...] = ()
    seed: str = ""


Counts = tuple[tuple[Meant, int], ...]


def expect(meant: Iterable[Meant]) -> Expected | None:
    """The weight of these trays together, with the range that holds 4 times in 5; None if unknown.

    Trays of a batch share its luck, all of a crop what is not known of its mean, and crops
    nothing. Trays of which nothing is known are left out.
    """
    return _expect(_counted(meant))


def chance_of(meant: Iterable[Meant], grams: float) -> float:
    """The chance that these trays together, less what was cut of them, give at least so many g.

    Trays of which nothing is known are taken to give nothing.
    """
    if grams <= 0:
        return 1.0
    return _chance_of(_counted(meant), grams)


@lru_cache(maxsize=2_000)
def _chance_of(meant: Counts, grams: float) -> float:
    counts, cut = _by_luck(meant)
    if not counts:
        return 0.0
    most = max(counts, key=lambda luck: sum(each.trays for each in counts[luck]))
    others = [luck.sum_of(each) for luck, each in counts.items() if luck is not most]
    return most.at_least(counts[most], grams + cut, others)


def _counted(meant: Iterable[Meant]) -> Counts:
    return tuple(sorted(Counter(meant).items(), key=lambda each: each[0].batch))


def _by_luck(meant: Counts) -> tuple[dict[Luck, tuple[Load, ...]], float]:
    """How many trays of each batch have a luck, and what was cut of all of them, g."""
    loads: dict[Luck, dict[int, Load]] = {}
    cut = 0.0
    for each, trays in meant:
        if each.luck is not None:
            mine = loads.setdefault(each.luck, {})
            before = mine.get(each.batch, Load(each.batch, 0.0, 0.0))
            mine[each.batch] = Load(
                each.batch, before.trays + trays * each.factor,
                before.squares + trays * each.factor**2,
            )  # fmt: skip
            cut += each.cut * trays
    return {luck: tuple(mine[batch] for batch in sorted(mine)) for luck, mine in loads.items()}, cut


@lru_cache(maxsize=2_000)
def _expect(meant: Counts) -> Expected | None:
    counts, cut = _by_luck(meant)
    if not counts:
        return None
    whole = together(luck.sum_of(batches) for luck, batches in counts.items())
    low, high = whole.grams - whole.within, whole.grams + whole.within
    own = {each for luck in counts for each in luck.own}  # versions of a template share theirs
    trays, batches = sum(each.trays for each in own), len({each.batch for each in own})
    by = tuple(dict.fromkeys(name for each, _ in meant for name in each.by))
    seed = "/".join(sorted({each.seed for each, _ in meant if each.seed}))
    found = Expected(
        whole.grams, whole.variance**0.5, max(0.0, low), high, trays, batches, by, seed
    )
    return found.rest(cut)


def luck_of_harvest(
    template: CropTemplate, own: tuple[BatchWeights, ...], harvest: int = 1
) -> Luck | None:
    """What is known of the weights of a template's harvest (from 1), of which `own` are."""
    guess = template.expected_grams if harvest == 1 else template.regrow_grams
    return luck_of(Guess(guess, template.spread_percent), own)
