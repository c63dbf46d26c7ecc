"""The parts of luck in weights by batch, without a book."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from logbook.growing.crops.luck import BatchWeights, batch_weights, even, fitted, luck_of
from logbook.growing.measures import number_words
from logbook.text import Refused, plural


@dataclass(frozen=True, slots=True)
class LuckParts:
    """The mean, how far batches and trays are apart (standard deviations), and a sum to expect.

    `sum_low` to `sum_high` holds the sum of new trays, sown as new batches, 4 times in 5.
    """

    keys: ClassVar = "mean batch_sd tray_sd trays batches sum_low sum_high"

    mean: float
    batch_sd: float
    """0 where batches differ no more than their trays let them."""
    tray_sd: float
    trays: int
    """Trays with a weight."""
    batches: int
    sum_low: float
    sum_high: float
    new_trays: int
    new_batches: int

    def lines(self) -> Iterator[str]:
        """Say it in words."""
        mean, batch, tray, low, high = (
            number_words(each, 2 if self.mean < 100 else 1)
            for each in (self.mean, self.batch_sd, self.tray_sd, self.sum_low, self.sum_high)
        )
        yield f"mean {mean} g, from {plural(self.trays, 'tray')} of {self.batches} batches"
        yield f"batches spread by {batch} g, trays of a batch by {tray} g (standard deviations)"
        new = "a new batch" if self.new_batches == 1 else f"{self.new_batches} new batches"
        yield f"{plural(self.new_trays, 'tray')} of {new}: {low}–{high} g, 4 in 5"
        if not self.batch_sd:
            yield (
                "The batches differ no more than their trays explain, so their part is 0; the "
                "range still allows for some."
            )


def luck_parts(weights: Sequence[tuple[str, float]], trays: int = 1, batches: int = 1) -> LuckParts:
    """Part the luck of weights (batch, g) by REML, with the range of so many new trays' sum.

    Trays of 0 g died and are left out. Raises Refused where the parts cannot be told.
    """
    names = {batch: place for place, batch in enumerate(dict.fromkeys(b for b, _ in weights))}
    own = batch_weights((names[batch], grams, False) for batch, grams in weights)
    if trays < batches:
        raise Refused(f"{plural(trays, 'tray')} cannot be sown as {batches} batches.")
    _refuse(own)
    mean, batch_sd, tray_sd = spread_parts(own)
    count = sum(each.trays for each in own)
    luck = luck_of(None, own)
    assert luck is not None  # noqa: S101 - there are weights
    whole = luck.sum_of(even(trays, batches))
    low, high = max(0.0, whole.grams - whole.within), whole.grams + whole.within
    return LuckParts(mean, batch_sd, tray_sd, count, len(own), low, high, trays, batches)


def spread_parts(own: Sequence[BatchWeights]) -> tuple[float, float, float]:
    """The mean, and how far batches and trays are apart (standard deviations), by REML.

    There must be two batches, and two trays weighed apart in one of them.
    """
    ratio = likeliest_ratio(own)
    mean, _, around, _ = fitted(ratio, own)
    count = sum(each.trays for each in own)
    tray = (around + math.fsum(each.squares for each in own)) / (count - 1)
    return mean, math.sqrt(ratio * tray), math.sqrt(tray)


def trays_differ(own: Sequence[BatchWeights]) -> bool:
    """Whether trays of a batch weigh differently, by more than the rounding of decimals."""
    return any(each.squares > _NOISE * each.mean**2 for each in own)


def _refuse(own: Sequence[BatchWeights]) -> None:
    count = sum(each.trays for each in own)
    if not count:
        raise Refused("There is no tray with a weight in it.")
    if count < 2:
        raise Refused(
            "One tray says nothing about luck: weigh two or more trays of two or more batches."
        )
    if len(own) < 2:
        raise Refused(
            "All trays are from one batch, so how far batches differ can't be told: weigh trays of "
            "two or more."
        )
    if not sum(each.df for each in own):
        raise Refused(
            "No batch has two trays, so the luck of batches and of trays cannot be told apart: "
            "weigh two or more trays of a batch."
        )
    if not trays_differ(own):
        same = len({each.mean for each in own}) == 1
        which = "All trays" if same else "The trays of each batch"
        raise Refused(
            f"{which} weigh the same, so how far trays differ cannot be told. Weigh them one by "
            "one, to the gram; an even share of a joint weight says nothing about it."
        )


_NOISE = 1e-20
"""Squares below this share of the mean's are the rounding of decimals."""


def likeliest_ratio(own: Sequence[BatchWeights]) -> float:
    """The batches' variance by that of trays, by restricted maximum likelihood; 0 or more."""
    squares = math.fsum(each.squares for each in own)
    count = sum(each.trays for each in own)
    middle = math.fsum(each.trays * each.mean for each in own) / count
    sizes: dict[int, list[float]] = {}
    for each in own:
        sizes.setdefault(each.trays, []).append(each.mean - middle)
    alike = [
        (size, len(means), math.fsum(means), math.fsum(each * each for each in means))
        for size, means in sizes.items()
    ]

    def log(angle: float) -> float:
        """As fitted() has it, of batches of one size together."""
        ratio = math.tan(angle) ** 2
        told = [(size / (1 + size * ratio), many, sums, twos) for size, many, sums, twos in alike]
        weight = math.fsum(each * many for each, many, _, _ in told)
        mean = math.fsum(each * sums for each, _, sums, _ in told) / weight
        around = math.fsum(each * twos for each, _, _, twos in told) - weight * mean**2
        spread = math.fsum(many * math.log1p(size * ratio) for size, many, _, _ in alike)
        rest = -(spread + math.log(weight)) / 2
        return rest - (count - 1) / 2 * math.log(squares + max(0.0, around))

    steps = 64
    step = math.pi / 2 / steps
    best = max(range(steps), key=lambda place: log(place * step))
    low, high = max(0.0, (best - 1) * step), min(math.pi / 2 - 1e-9, (best + 1) * step)
    while high - low > 1e-9:
        third = (high - low) / 3
        if log(low + third) < log(high - third):
            low += third
        else:
            high -= third
    angle = (low + high) / 2
    return 0.0 if log(0.0) >= log(angle) else math.tan(angle) ** 2
