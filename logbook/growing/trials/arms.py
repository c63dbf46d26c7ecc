"""The arms of a trial: their trays, what was counted and what was not, and how far trays lie apart.

A weight of 0 g is kept apart from a missing one: the tray was there and gave nothing. Neither
enters a mean, because a dead tray is not a light tray; both are counted and said.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean
from typing import ClassVar

from logbook.growing.measures import number_words
from logbook.text import Refused, fold, plural


@dataclass(frozen=True, slots=True)
class Tray:
    """One tray of a trial.

    `grams` is None while there is no weight. `left_out` says why a tray must not count
    ("discarded", "struck out"); '' when it does. `zero_counts` says that 0 is a value like others,
    as of a height, and no dead tray.
    """

    arm: str
    grams: float | None
    block: str | None = None
    left_out: str = ""
    zero_counts: bool = False

    @property
    def counts(self) -> bool:
        """Whether it enters the means."""
        weighed = self.grams is not None and (self.grams > 0 or self.zero_counts)
        return weighed and not self.left_out


@dataclass(frozen=True, slots=True)
class Arm:
    """One arm: the weights that count in g, and how many trays did not count and why."""

    keys: ClassVar = "arm=name n mean_grams=mean sd_grams=sd died missing"

    name: str
    weights: tuple[float, ...]
    died: int = 0
    missing: int = 0
    left_out: tuple[str, ...] = ()

    @property
    def n(self) -> int:
        """Trays with a weight above 0 g."""
        return len(self.weights)

    @property
    def mean(self) -> float | None:
        """Mean in g, None without a tray."""
        return fmean(self.weights) if self.weights else None

    @property
    def variance(self) -> float | None:
        """Variance in g², divisor n−1; None below two trays."""
        return squares(self.weights) / (self.n - 1) if self.n > 1 else None

    @property
    def sd(self) -> float | None:
        """Standard deviation in g, divisor n−1; None below two trays."""
        variance = self.variance
        return None if variance is None else math.sqrt(variance)


LIGHTEST = 1e-6
HEAVIEST = 1e15
"""Weights in g outside these are refused: no scale shows them, and sums would lose them."""

_NOISE = 1e-14
"""A spread below this share of the weight is the rounding of decimals, not of trays."""


def squares(values: tuple[float, ...]) -> float:
    """The sum of squares around the mean, computed around the first value."""
    start = values[0]
    shifted = [value - start for value in values]
    middle = fmean(shifted)
    total = math.fsum((value - middle) ** 2 for value in shifted)
    return total if math.sqrt(total / len(values)) > _NOISE * abs(start) else 0.0


def gather(trays: Iterable[Tray]) -> tuple[Arm, ...]:
    """Sort trays into arms, in order of appearance, case aside; Refused for a bad weight."""
    arms: dict[str, list[Tray]] = {}
    for tray in trays:
        if tray.grams and not LIGHTEST <= tray.grams <= HEAVIEST:
            raise Refused(
                f'A tray of the arm "{tray.arm}" has the weight {tray.grams:g} g; '
                "a weight is what a scale shows, 0 g or more."
            )
        arms.setdefault(fold(tray.arm), []).append(tray)
    return tuple(map(_arm, arms.values()))


def _arm(trays: Sequence[Tray]) -> Arm:
    here = [tray for tray in trays if not tray.left_out]
    missing = sum(tray.grams is None for tray in here)
    weights = tuple(tray.grams for tray in here if tray.grams is not None and tray.counts)
    out = tuple(tray.left_out for tray in trays if tray.left_out)
    return Arm(trays[0].arm, weights, len(here) - missing - len(weights), missing, out)


ENOUGH = 6
"""Degrees of freedom from which the room's own spread is taken instead of the template's."""

GUESS_DF = 8.0
"""Degrees of freedom of a spread that may be off by a quarter, 1 / (2 · 0.25²): GUM (JCGM 100:2008)
G.4.2. That a template's figure is off by so much is common practice, no source."""


@dataclass(frozen=True, slots=True)
class RoomSpread:
    """Standard deviation from tray to tray in % of the mean, and what it rests on.

    `trays` and `sowings` are 0 where it is the template's.
    """

    percent: float
    trays: int
    sowings: int

    @property
    def df(self) -> float:
        """The degrees of freedom that it is known with; of a template's figure GUESS_DF."""
        return self.trays - self.sowings or GUESS_DF

    @property
    def words(self) -> str:
        """Say it with what it rests on."""
        rests = "the template's figure; too few own trays were weighed singly"
        if self.trays:
            rests = f"{plural(self.trays, 'tray')} of {plural(self.sowings, 'sowing')} of this room"
        return f"{number_words(self.percent)} % from tray to tray ({rests})"


def room_spread(sowings: Mapping[int, Sequence[float]], template_percent: float) -> RoomSpread:
    """Pool the spread within sowings, each as a share of its own mean.

    Trays of one sowing shared their week, so their spread is the luck of trays alone (the within
    mean square of a one-way analysis, Gomez & Gomez 1984, ch. 2.1, on relative weights). From batch
    → weights in g of trays that were weighed singly (0 is left out); `template_percent` is taken
    where fewer than ENOUGH degrees of freedom are known.
    """
    alive = [tuple(grams for grams in weights if grams > 0) for weights in sowings.values()]
    several = [weights for weights in alive if len(weights) > 1]
    trays = sum(map(len, several))
    df = trays - len(several)
    total = sum(squares(weights) / fmean(weights) ** 2 for weights in several)
    if df < ENOUGH or total <= 0:
        return RoomSpread(template_percent, 0, 0)
    return RoomSpread(100 * math.sqrt(total / df), trays, len(several))
