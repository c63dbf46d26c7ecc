"""How often the book finds a difference where there is none, and whether its power is true.

Run by hand from the project's folder: python -m tests.bench.null_trials [TRIALS [SEED]]. Every
design draws TRIALS (20,000) trials and counts what the book would declare; the chapter "How sure"
has its table. A counted rate of 20,000 is itself off by 0.15 points as a rule, and now and then by
three times that; arms of equal numbers in normal rooms, whose true rate is 4.7 to 5, are counted from
five times as many. The rule is drawn in whole arrays; `tests/growing/trials/test_trial_null.py` holds that it is the book's own.
"""

from __future__ import annotations

import math
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Any

import numpy as np
from scipy import special

from logbook.growing.trials.arms import GUESS_DF, Arm
from logbook.growing.trials.course import Course
from logbook.growing.trials.distributions import crossing, range_critical
from logbook.growing.trials.replicates import detectable_difference, power_of
from logbook.growing.trials.significance import chance_of_unlike
from logbook.growing.trials.verdict import SOUND, takes_one_spread, verdict

MEAN, SPREAD = 300.0, 24.0
"""Invented: trays of 300 g that spread by 8 %."""

Array = Any
Luck = Callable[[np.random.Generator, tuple[int, ...]], Array]


def normal(luck: np.random.Generator, shape: tuple[int, ...]) -> Array:
    """The room of the formulas."""
    return luck.standard_normal(shape)


def skewed(luck: np.random.Generator, shape: tuple[int, ...]) -> Array:
    """Gamma of shape 2: a few trays do far better than most (skewness 1.4), mean 0 and spread 1."""
    return (luck.standard_gamma(2.0, shape) - 2) / math.sqrt(2)


def heavy(luck: np.random.Generator, shape: tuple[int, ...]) -> Array:
    """Student's t with 4 degrees of freedom: now and then a tray far off, spread 1."""
    return luck.standard_t(4, shape) / math.sqrt(2)


ROOMS: dict[str, Luck] = {"normal": normal, "skewed": skewed, "heavy tails": heavy}


@dataclass(frozen=True)
class Rate:
    """What was counted beside what is stated, both in %; `most`: it only must not pass that."""

    design: str
    counted: float
    stated: float = 5.0
    room: float = 0.5
    most: float | None = None

    @property
    def kept(self) -> bool:
        """Whether what is stated is true within its room."""
        if self.most is not None:
            return self.counted <= self.most
        return abs(self.counted - self.stated) <= self.room

    @property
    def words(self) -> str:
        """A line of the table."""
        bar = f"{self.stated:.1f} ± {self.room:g}" if self.most is None else f"≤ {self.most:g}"
        return f"{self.design:62} {self.counted:6.2f}   {bar:12} {'' if self.kept else 'NOT KEPT'}"


@lru_cache
def unlike_limit(numbers: tuple[int, ...]) -> float:
    """The ratio of spreads from which arms of these numbers get their own."""
    return crossing(lambda ratio: 0.05 - chance_of_unlike(ratio, numbers), 1.0, 4.0)


def arms_p(trays: Sequence[Array]) -> Array:
    """The overall p of many trials without blocks; `trays` is an array (trials × trays) for each arm.

    Where Welch's formula alone would declare, the book's own verdict is asked.
    """
    numbers = np.array([each.shape[1] for each in trays], dtype=float)
    means = np.column_stack([each.mean(axis=1) for each in trays])
    variances = np.column_stack([each.var(axis=1, ddof=1) for each in trays])
    arms, every = len(numbers), numbers.sum()
    middle = (means * numbers).sum(axis=1, keepdims=True) / every
    between = (numbers * (means - middle) ** 2).sum(axis=1) / (arms - 1)
    error = (variances * (numbers - 1)).sum(axis=1) / (every - arms)
    p = special.fdtrc(arms - 1, every - arms, between / error)
    ordered = tuple(sorted(int(number) for number in numbers))
    alone = not takes_one_spread(ordered)
    own = np.full(len(p), alone)
    if not alone:
        own = variances.max(axis=1) > unlike_limit(ordered) ** 2 * variances.min(axis=1)
    weights = numbers / variances
    whole = weights.sum(axis=1, keepdims=True)
    about = (weights * means).sum(axis=1, keepdims=True) / whole
    slack = ((1 - weights / whole) ** 2 / (numbers - 1)).sum(axis=1)
    f = (weights * (means - about) ** 2).sum(axis=1) / (arms - 1)
    f /= 1 + 2 * (arms - 2) / (arms**2 - 1) * slack
    by_welch = special.fdtrc(arms - 1, (arms**2 - 1) / (3 * slack), f)
    guarded = not alone or ordered[0] <= SOUND
    asked_of = own & (by_welch < 0.05) & ((p < 0.05) if guarded else True)
    p = np.where(own, np.maximum(p, by_welch) if guarded else by_welch, p)
    for at in np.flatnonzero(asked_of):
        asked = verdict([Arm(str(arm), tuple(each[at].tolist())) for arm, each in enumerate(trays)])
        assert asked.anova is not None
        p[at] = asked.anova.p
    return p


def blocks_p(trays: Array) -> Array:
    """The overall p of many trials in blocks; `trays` is trials × arms × blocks × trays of a cell."""
    cells = trays.mean(axis=3)
    arms, blocks = cells.shape[1:]
    of_arms = cells.mean(axis=2, keepdims=True)
    of_blocks = cells.mean(axis=1, keepdims=True)
    middle = cells.mean(axis=(1, 2), keepdims=True)
    left = ((cells - of_arms - of_blocks + middle) ** 2).sum(axis=(1, 2))
    df = (arms - 1) * (blocks - 1)
    between = blocks * ((of_arms - middle) ** 2).sum(axis=(1, 2)) / (arms - 1)
    return special.fdtrc(arms - 1, df, between / (left / df))


def drawn(
    luck: np.random.Generator, trials: int, numbers: Sequence[int], spreads: Sequence[float] = (),
    room: str = "normal", apart: float = 0.0,
) -> list[Array]:  # fmt: skip
    """Draw trials without blocks; the first arm lies `apart` spreads above the others."""
    return [
        MEAN + SPREAD * ((arm == 0) * apart + spread * ROOMS[room](luck, (trials, number)))
        for arm, (number, spread) in enumerate(
            zip(numbers, spreads or [1.0] * len(numbers), strict=True)
        )
    ]


def drawn_in_blocks(
    luck: np.random.Generator, trials: int, shape: tuple[int, int, int], uneven: float = 0.0,
    room: str = "normal", apart: float = 0.0,
) -> Array:  # fmt: skip
    """Draw trials of arms × blocks × trays; differences vary by `uneven` spreads between blocks."""
    arms, blocks, _ = shape
    trays = ROOMS[room](luck, (trials, *shape))
    trays += 2 * normal(luck, (trials, 1, blocks, 1))
    trays += uneven * ROOMS[room](luck, (trials, arms, blocks, 1))
    trays[:, 0] += apart
    return MEAN + SPREAD * trays


def share(hits: Array) -> float:
    """How many of the trials, in %."""
    return 100 * float(np.mean(hits))


def false_alarms(
    numbers: Sequence[int], trials: int, *, spreads: Sequence[float] = (), room: str = "normal",
    most: float | None = None, seed: int = 0,
) -> Rate:  # fmt: skip
    """How often alike arms are declared to differ, without blocks."""
    luck = np.random.default_rng((seed, 71, *numbers))
    p = arms_p(drawn(luck, trials, numbers, spreads, room))
    alike = len(set(numbers)) == 1
    what = (
        f"{len(numbers)} arms of {numbers[0]}"
        if alike
        else f"arms of {' '.join(map(str, numbers))}"
    )
    unlike = f", spreads {' '.join(f'{one:g}' for one in spreads)}" if spreads else ""
    return Rate(f"{what}{unlike}, {room}", share(p < 0.05), most=most)


def block_false_alarms(
    shape: tuple[int, int, int], trials: int, *, uneven: float = 0.0, room: str = "normal",
    most: float | None = None, seed: int = 0,
) -> Rate:  # fmt: skip
    """The same in blocks: arms, blocks, trays of an arm in a block."""
    luck = np.random.default_rng((seed, 72))
    p = blocks_p(drawn_in_blocks(luck, trials, shape, uneven, room))
    arms, blocks, cell = shape
    gap = f", difference varies by {uneven:g}" if uneven else ""
    return Rate(
        f"{arms} arms in {blocks} blocks, {cell} a cell{gap}, {room}", share(p < 0.05), most=most
    )


def weekly(
    shape: tuple[int, int, int], trials: int, threshold: Callable[[int], float] | None, what: str,
    *, most: float | None = None, seed: int = 0,
) -> Rate:  # fmt: skip
    """How often alike arms differ at one look or another, when every week's block is judged at once.

    `threshold` is what a look must stay below after so many weeks; None: judged at the end alone.
    """
    luck = np.random.default_rng((seed, 73))
    trays = drawn_in_blocks(luck, trials, shape)
    weeks = shape[1]
    hits = np.zeros(trials, dtype=bool)
    for week in range(2, weeks + 1) if threshold else [weeks]:
        hits |= blocks_p(trays[:, :, :week]) < (threshold(week) if threshold else 0.05)
    arms, _, cell = shape
    name = f"{what}: {arms} arms, {cell} a week, {weeks} weeks"
    return Rate(name, share(hits), most=most)


def open_threshold(looks: int) -> float:
    """What the book asks of a trial without a planned end after so many looks."""
    return Course(looks=looks).threshold


def one_tray(
    arms: int, df: float, trials: int, *, off: float = 1.0, claimed_df: float | None = None,
    room: str = "normal", most: float | None = None, seed: int = 0,
) -> Rate:  # fmt: skip
    """How often one tray per arm is called seldom by chance (below 5 %), the spread known with df.

    `off` is the true spread over what is thought; df inf: the thought one is that exactly.
    """
    luck = np.random.default_rng((seed, 74))
    known = np.ones(trials) if math.isinf(df) else np.sqrt(luck.chisquare(df, trials) / df)
    gap = off * np.ptp(ROOMS[room](luck, (trials, arms)), axis=1)
    limit = range_critical(0.05, arms, df if claimed_df is None else claimed_df)
    about = "the template's guess" if claimed_df else f"a spread of {df:g} degrees of freedom"
    wrong = f", true spread {off:g} times" if off != 1 else ""
    name = f"one tray, {arms} arms, {about}{wrong}, {room}"
    return Rate(name, share(gap / known > limit), most=most)


def power(
    arms: int, trays: int, trials: int, *, cell: int = 0, room: str = "normal", seed: int = 0
) -> Rate:
    """How often the promised difference of one arm from the others is seen, which should be 80 %."""
    promised = detectable_difference(8.0, trays, arms=arms, cell=cell)
    assert promised is not None
    luck, apart = np.random.default_rng((seed, 75)), promised / 8
    if cell:
        p = blocks_p(
            drawn_in_blocks(luck, trials, (arms, trays // cell, cell), room=room, apart=apart)
        )
    else:
        p = arms_p(drawn(luck, trials, [trays] * arms, room=room, apart=apart))
    how = f" in {trays // cell} blocks" if cell else ""
    name = f"power, {arms} arms of {trays}{how}, promised {promised:.0f} %, {room}"
    return Rate(name, share(p < 0.05), 100 * power_of(trays, apart, arms, cell), 3.0)


UNEQUAL = (
    (2, 3), (3, 4), (3, 3, 2), (4, 3, 3), (12, 4), (5, 6, 8), (20, 12, 6), (8, 8, 4, 4), (10, 6, 4),
    (6, 5, 5, 4, 3, 3),
)  # fmt: skip
LOPSIDED = ((5, 2), (8, 5, 3), (12, 12, 3))
"""Arms of which one lost most of its trays: seldom declared to differ, which the chapter says."""
UNLIKE = (
    ((3, 3), (1, 3), 8), ((3, 3, 3), (1, 1, 3), 9.5), ((5, 5, 5), (1, 2, 3), 7),
    ((5, 5, 5), (1, 1, 3), 7.5), ((10, 10, 10), (1, 1, 3), 5.5), ((20, 20, 20), (1, 1, 3), 5.5),
    ((3,) * 6, (1, 1, 1, 1, 1, 3), 11), ((10,) * 6, (1, 1, 1, 1, 1, 3), 5.5),
    ((5, 6, 8), (3, 2, 1), 6), ((20, 12, 6), (1, 2, 3), 5.5), ((12, 4), (1, 3), 5.5),
    ((4, 3, 3), (1, 2, 3), 10), ((5, 2), (1, 3), 8.5), ((12, 12, 3), (1, 1, 3), 6.5),
)  # fmt: skip
"""Numbers, spreads, and what the chapter states at most for such arms, in %."""


def jobs(trials: int, seed: int) -> Iterator[Callable[[], Rate]]:
    """Every line of the table."""
    more: dict[str, Any] = {"trials": trials, "seed": seed}
    for room in ROOMS:
        most = None if room == "normal" else 5.5
        for arms in range(2, 7):
            for trays in (2, 3, 5, 10):
                times = 5 if room == "normal" else 1
                yield partial(
                    false_alarms, [trays] * arms, times * trials, room=room, most=most, seed=seed
                )
        for numbers in UNEQUAL:
            yield partial(false_alarms, numbers, room=room, most=most and 7.0, **more)
        for numbers in LOPSIDED:
            yield partial(false_alarms, numbers, room=room, most=5.5, **more)
        for shape in (
            (2, 2, 1),
            (2, 6, 1),
            (3, 4, 1),
            (6, 3, 1),
            (2, 3, 3),
            (3, 2, 2),
            (4, 4, 3),
            (6, 2, 2),
        ):
            for uneven in (0.0, 1.0)[: 1 + (shape[2] > 1)]:
                yield partial(
                    block_false_alarms, shape, uneven=uneven, room=room, most=most, **more
                )
    for numbers, spreads, stated in UNLIKE:
        yield partial(false_alarms, numbers, spreads=spreads, most=stated, **more)
    for arms in (2, 3, 6):
        for cell in (1, 3):
            for weeks in (4, 10):
                shape = (arms, weeks, cell)
                yield partial(
                    weekly, shape, threshold=None, what="looked at weekly, planned end", **more
                )
                yield partial(
                    weekly, shape, threshold=open_threshold, what="no planned end", most=5.5, **more
                )
                yield partial(
                    weekly,
                    shape,
                    threshold=lambda _: 0.05,
                    what="(5 % at every look)",
                    most=100,
                    **more,
                )
        shape = (arms, 20, 1)
        yield partial(
            weekly, shape, threshold=open_threshold, what="no planned end", most=5.5, **more
        )
    for arms in (2, 4, 6):
        for df in (6, 20, math.inf):
            yield partial(one_tray, arms, df, **more)
        yield partial(one_tray, arms, GUESS_DF, claimed_df=GUESS_DF, **more)
        yield partial(one_tray, arms, math.inf, off=1.2, claimed_df=GUESS_DF, most=7, **more)
        for room in ("skewed", "heavy tails"):
            yield partial(one_tray, arms, 20, room=room, most=8.5, **more)
    for arms in (2, 3, 4, 6):
        for trays in (2, 3, 5, 8, 12):
            yield partial(power, arms, trays, **more)
        for trays, cell in ((2, 1), (4, 1), (4, 2), (9, 3), (12, 2)):
            yield partial(power, arms, trays, cell=cell, **more)
    for room in ("skewed", "heavy tails"):
        yield partial(power, 3, 3, room=room, **more)
        yield partial(power, 3, 8, room=room, **more)


def main() -> None:
    """Print the table."""
    trials = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    start, broken = time.perf_counter(), 0
    print(f"{trials:,} trials each; counted and stated in %")
    for job in jobs(trials, int(sys.argv[2]) if len(sys.argv) > 2 else 0):
        rate = job()
        broken += not rate.kept
        print(rate.words, flush=True)
    print(f"{broken} not kept, {time.perf_counter() - start:.0f} s")


if __name__ == "__main__":
    main()
