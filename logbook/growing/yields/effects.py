"""What lateness and shelves cost, as far as this room's own batches tell: an observation, not a trial.

One factor at a time: the mean logarithm of a batch's grams per tray over its mean of the factor, both
less the mean of their crop (least squares, Draper & Smith 1998, Applied Regression Analysis, ch. 1). A
batch counts once, as its trays share their luck. Ranges allow for all factors that are looked at
(Bonferroni), so that one false effect in 20 such tables is seen where there is none. Lamps are weaker
by what the shelf's surveys say beside the first one under them.
"""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean
from typing import ClassVar

from logbook.growing.trials.distributions import special
from logbook.text import plural

LEAST = 6
"""So many batches more than crops are needed."""
SHARE = 0.05
TOLD, POWER = 0.05, 0.84
"""An effect of 5 % of a step is to be seen in 80 of 100: 0.84 is that chance's normal quantile."""
MANY = 2_000
"""More trays than this are not told to the last one."""
STEPS: Mapping[str, tuple[float, str]] = {
    "lid or weight late": (6.0, "6 h"), "lights late": (6.0, "6 h"), "cut late": (24.0, "a day"),
    "watering missed": (1.0, "one"), "soak too long": (4.0, "4 h"),
    "lamps weaker": (10.0, "10 % less light"),
}  # fmt: skip
"""What is looked at besides shelves, by how much of it an effect is told: in its unit, in words."""


@dataclass(frozen=True, slots=True)
class BatchSeen:
    """A batch: its crop, its trays, grams per tray, and by factor how much of it there was."""

    crop: str
    trays: int
    grams: float
    factors: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Effect:
    """What a step of a factor does to the weight, %, with its range; what it is based on."""

    keys: ClassVar = (
        "factor step percent low_percent high_percent seen batches trays more_trays words"
    )

    factor: str
    step: str
    percent: float
    low_percent: float
    high_percent: float
    batches: int
    trays: int
    more_trays: int | None
    """So many more would tell an effect of 5 %; null where it is told by now."""

    @property
    def seen(self) -> bool:
        """Whether it is more than luck would give."""
        return self.low_percent > 0 or self.high_percent < 0

    @property
    def words(self) -> str:
        """Say it in a sentence."""
        of = f"{self.factor}, {self.step}" if self.step else self.factor
        span = f"{self.low_percent:+.0f} to {self.high_percent:+.0f} %"
        if self.seen:
            return f"{of}: {self.percent:+.0f} % of the weight ({span}), from {plural(self.batches, 'batch', 'batches')}"
        if self.more_trays:
            few = self.more_trays <= MANY
            trays = f"about {self.more_trays:,}" if few else f"more than {MANY:,}"
            return f"{of}: no effect seen yet ({span}); {trays} more trays would tell"
        return f"{of}: no effect of 5 % or more ({span})"


def effects(batches: Sequence[BatchSeen]) -> list[Effect]:
    """The effects of all factors that differ between batches of a crop, the surest first."""
    known = [one for one in batches if one.grams > 0]
    counts = Counter(one.crop for one in known)
    known = [one for one in known if counts[one.crop] > 1]
    names = list(dict.fromkeys(name for one in known for name in one.factors))
    told = [(name, fit) for name in names if (fit := _fitted(known, name)) is not None]
    found = [_effect(known, name, *fit, looks=len(told)) for name, fit in told]
    return sorted(found, key=lambda one: (not one.seen, one.factor))


def _fitted(batches: Sequence[BatchSeen], name: str) -> tuple[float, float, int] | None:
    """Slope of the logarithm, its standard error, its degrees of freedom; None where it can't be told.

    It can't from too few batches, nor where the factor hardly differed: by less than a tenth of its step.
    """
    mine = [one for one in batches if name in one.factors]
    crops: dict[str, list[BatchSeen]] = {}
    for one in mine:
        crops.setdefault(one.crop, []).append(one)
    x, y = list[float](), list[float]()
    for own in crops.values():
        mean_x = fmean(one.factors[name] for one in own)
        mean_y = fmean(math.log(one.grams) for one in own)
        x += [one.factors[name] - mean_x for one in own]
        y += [math.log(one.grams) - mean_y for one in own]
    df = len(mine) - len(crops) - 1
    around = math.fsum(each * each for each in x)
    step = STEPS.get(name, (1.0, ""))[0]
    if df < LEAST or around < len(mine) * (step / 10) ** 2:
        return None
    slope = math.fsum(a * b for a, b in zip(x, y, strict=True)) / around
    rest = math.fsum((b - slope * a) ** 2 for a, b in zip(x, y, strict=True))
    return slope, math.sqrt(rest / df / around), df


def _effect(
    batches: Sequence[BatchSeen], name: str, slope: float, error: float, df: int, *, looks: int
) -> Effect:
    step, words = STEPS.get(name, (1.0, ""))
    t = float(special().stdtrit(df, 1 - SHARE / 2 / looks))
    mine = [one for one in batches if name in one.factors]
    trays = sum(one.trays for one in mine)
    needed = math.log1p(TOLD) / (t + POWER)
    more = trays * ((step * error / needed) ** 2 - 1)

    def percent(each: float) -> float:
        return 100 * math.expm1(max(-20.0, min(20.0, each)))

    return Effect(
        name, words, percent(step * slope), percent(step * (slope - t * error)),
        percent(step * (slope + t * error)), len(mine), trays,
        max(1, math.ceil(more / 10) * 10) if more > 0 else None,
    )  # fmt: skip
