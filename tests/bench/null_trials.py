"""How often the book finds a difference where there is none, and whether its power is true.

Run by hand from the project's folder: python -m tests.bench.null_trials [TRIALS [SEED]]. Every
design draws TRIALS (10,000) trials of alike arms and counts what the book would declare. The
promise is 5 % ± 0.5 from five trays per arm on; with fewer trays the rate must not pass 5.5 %
and is mostly lower. Seeds are kept, so the table is the same each time. A counted rate of
10,000 trials is itself off by 0.2 points as a rule; 40,000 bring that to 0.1.
"""

from __future__ import annotations

import math
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from logbook.growing.trials.arms import Arm, Tray
from logbook.growing.trials.blocks import in_blocks
from logbook.growing.trials.distributions import range_tail
from logbook.growing.trials.judging import judge
from logbook.growing.trials.replicates import power_of, trays_per_arm
from logbook.growing.trials.verdict import judgeable, verdict

MEAN = 300.0
SPREAD = 24.0
"""Invented: trays of 300 g that spread by 8 %."""
SEED = int(sys.argv[2]) if __name__ == "__main__" and len(sys.argv) > 2 else 0


@dataclass(frozen=True)
class Rate:
    """One line of the table: what was counted, beside what it should be, both in %."""

    design: str
    counted: float
    promised: float
    room: float | None
    """Points either side that are promised; None where the rate only must not pass 5.5 %."""

    @property
    def kept(self) -> bool:
        if self.room is None:
            return self.counted <= 5.5
        return abs(self.counted - self.promised) <= self.room


ONE_WAY: tuple[tuple[str, tuple[int, ...], tuple[float, ...], bool], ...] = (
    ("one way, 3 arms of 5", (5, 5, 5), (1, 1, 1), True),
    ("one way, 4 arms of 6", (6, 6, 6, 6), (1, 1, 1, 1), True),
    ("one way, 3 arms of 10", (10, 10, 10), (1, 1, 1), True),
    ("unequal numbers 5 6 8", (5, 6, 8), (1, 1, 1), True),
    ("unequal numbers 5 6 8 10", (5, 6, 8, 10), (1, 1, 1, 1), True),
    ("unequal numbers 20 12 6", (20, 12, 6), (1, 1, 1), True),
    ("unequal spreads 1 2 3, 5 trays", (5, 5, 5), (1, 2, 3), True),
    ("unequal spreads 1 1 1 3, 6 trays", (6, 6, 6, 6), (1, 1, 1, 3), True),
    ("unequal spreads 1 1.5 2, 10 trays", (10, 10, 10), (1, 1.5, 2), True),
    ("numbers 5 6 8, spreads 1 2 3", (5, 6, 8), (1, 2, 3), True),
    ("numbers 5 6 8, spreads 3 2 1", (5, 6, 8), (3, 2, 1), True),
    ("numbers 6 8 10 12, spreads 1 2 2 3", (6, 8, 10, 12), (1, 2, 2, 3), True),
    ("numbers 12 10 8 6, spreads 1 2 2 3", (12, 10, 8, 6), (1, 2, 2, 3), True),
    ("2 arms of 5, spreads 1 3", (5, 5), (1, 3), True),
    ("2 arms of 6, spreads 1 2", (6, 6), (1, 2), True),
    ("2 arms of 10, spreads 1 1.7", (10, 10), (1, 1.7), True),
    ("numbers 7 5, spreads 1 3", (7, 5), (1, 3), True),
    ("numbers 20 5, spreads 1 3", (20, 5), (1, 3), True),
    ("unequal spreads 1 1 2, 20 trays", (20, 20, 20), (1, 1, 2), True),
    ("few: 2 arms of 3, spreads 1 5", (3, 3), (1, 5), False),
    ("few: 3 arms of 3", (3, 3, 3), (1, 1, 1), False),
    ("few: 3 arms of 3, spreads 1 2 3", (3, 3, 3), (1, 2, 3), False),
    ("few: 3 arms of 3, spreads 1 1 3", (3, 3, 3), (1, 1, 3), False),
    ("few: 6 arms of 4, spreads 1 to 3", (4,) * 6, (1, 1.4, 1.8, 2.2, 2.6, 3), False),
    ("few: numbers 3 2, spreads 1 5", (3, 2), (1, 5), False),
    ("few: numbers 4 3, spreads 1 3", (4, 3), (1, 3), False),
    ("few: 2 arms of 4, spreads 1 3", (4, 4), (1, 3), False),
    ("few: numbers 5 4, spreads 1 3", (5, 4), (1, 3), False),
    ("few: numbers 12 4, spreads 1 1", (12, 4), (1, 1), False),
    ("few: numbers 10 6 4, spreads 1 2 3", (10, 6, 4), (1, 2, 3), False),
    ("few: numbers 8 8 4 4, spreads 1 to 3", (8, 8, 4, 4), (1, 1.7, 2.3, 3), False),
    ("few: numbers 12 4, spreads 1 3", (12, 4), (1, 3), False),
    ("few: numbers 4 3 3, spreads 1 2 3", (4, 3, 3), (1, 2, 3), False),
    ("few: numbers 8 5 3, spreads 1 2 3", (8, 5, 3), (1, 2, 3), False),
    ("few: numbers 12 12 2, spreads 1 1 3", (12, 12, 2), (1, 1, 3), False),
)


def drawn(luck: np.random.Generator, numbers: Sequence[int], spreads: Sequence[float]) -> list[Arm]:
    """Draw one trial of arms with one mean."""
    return [
        Arm(str(at), tuple((MEAN + SPREAD * spread * luck.standard_normal(number)).tolist()))
        for at, (number, spread) in enumerate(zip(numbers, spreads, strict=True))
    ]


def false_alarms(
    design: str, numbers: Sequence[int], spreads: Sequence[float], trials: int, *, promised: bool
) -> Rate:
    """Count how often alike arms are declared to differ."""
    luck = np.random.default_rng((SEED, 71))
    hits = sum(verdict(judgeable(drawn(luck, numbers, spreads))).shown for _ in range(trials))
    return Rate(design, 100 * hits / trials, 5.0, 0.5 if promised else None)


def block_false_alarms(arms: int, blocks: int, missing: int, trials: int) -> Rate:
    """Count the same in blocks that differ more than trays do, some trays missing."""
    luck = np.random.default_rng((SEED, 72))
    hits = 0
    for _ in range(trials):
        shelves = 2 * SPREAD * luck.standard_normal(blocks)
        trays = [
            Tray(str(arm), MEAN + shelves[block] + SPREAD * luck.standard_normal(), str(block))
            for block in range(blocks)
            for arm in range(arms)
            if block * arms + arm >= missing
        ]
        anova = in_blocks(trays).anova
        hits += anova is not None and anova.p < 0.05
    gone = f", {missing} missing" if missing else ""
    return Rate(f"blocks, {arms} arms in {blocks}{gone}", 100 * hits / trials, 5.0, 0.5)


def family_false_alarms(numbers: Sequence[int], trials: int) -> Rate:
    """Count how often any pair of alike arms is told apart in the full judgement."""
    luck = np.random.default_rng((SEED, 73))
    hits = 0
    for _ in range(trials):
        trays = [
            Tray(arm.name, weight)
            for arm in drawn(luck, numbers, [1.0] * len(numbers))
            for weight in arm.weights
        ]
        hits += bool(judge(trays).told_apart)
    return Rate(f"any pair told apart, {len(numbers)} arms", 100 * hits / trials, 5.0, None)


def one_tray_chance(arms: int, gap: float, trials: int) -> Rate:
    """Compare the one-tray chance of a gap (in spreads) with the share of drawn trials."""
    weights = np.random.default_rng((SEED, 74)).standard_normal((trials * 10, arms))
    counted = 100 * float((np.ptp(weights, axis=1) >= gap).mean())
    claimed = 100 * range_tail(gap, arms, math.inf)
    return Rate(f"one tray, {arms} arms, gap {gap} spreads", counted, claimed, 0.5)


def power(spread: float, gap: float, arms: int, trials: int) -> Rate:
    """Compare the reckoned power of the worked-out trays with how often the book sees the gap."""
    trays = trays_per_arm(spread, gap, arms=arms)
    if trays is None:
        raise ValueError("the gap is out of reach")
    luck = np.random.default_rng((SEED, 75))
    hits = 0
    for _ in range(trials):
        true = [MEAN * (1 + gap / 100), *[MEAN] * (arms - 1)]
        made = [
            Arm(str(at), tuple((mean + MEAN * spread / 100 * luck.standard_normal(trays)).tolist()))
            for at, mean in enumerate(true)
        ]
        hits += verdict(made).shown
    claimed = 100 * power_of(trays, gap / spread, arms)
    name = f"power, {arms} arms of {trays}, spread {spread:g} %, gap {gap:g} %"
    return Rate(name, 100 * hits / trials, claimed, 2.0)


def every_rate(trials: int) -> list[Callable[[], Rate]]:
    """Give every line of the table as a job."""
    jobs: list[Callable[[], Rate]] = []
    for design, numbers, spreads, promised in ONE_WAY:
        jobs.append(
            lambda d=design, n=numbers, s=spreads, p=promised: false_alarms(  # type: ignore[misc]
                d, n, s, trials, promised=p
            )
        )
    for arms, blocks, missing in ((2, 6, 0), (4, 5, 0), (4, 5, 2)):
        jobs.append(
            lambda a=arms, b=blocks, m=missing: block_false_alarms(  # type: ignore[misc]
                a, b, m, trials
            )
        )
    jobs.append(lambda: family_false_alarms((6, 6, 6, 6), trials // 5))
    for arms, gap in ((4, 3.1), (4, 2.48), (2, 1.5), (10, 4.0)):
        jobs.append(lambda a=arms, g=gap: one_tray_chance(a, g, trials))  # type: ignore[misc]
    for spread, gap in (
        (8.0, 10.0), (8.0, 15.0), (8.0, 20.0), (8.0, 30.0), (8.0, 50.0), (10.0, 10.0), (15.0, 10.0),
    ):  # fmt: skip
        jobs.append(lambda s=spread, g=gap: power(s, g, 2, trials))  # type: ignore[misc]
    return jobs


def main() -> None:
    """Print the table."""
    trials = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    start = time.perf_counter()
    print(f"{trials:,} trials each")
    for job in every_rate(trials):
        rate = job()
        room = "at most 5.5" if rate.room is None else f"{rate.promised:.2f} ± {rate.room}"
        mark = "kept" if rate.kept else "NOT KEPT"
        print(f"{rate.design:48} {rate.counted:6.2f} %   {room:14} {mark}", flush=True)
    print(f"{time.perf_counter() - start:.0f} s")


if __name__ == "__main__":
    main()
