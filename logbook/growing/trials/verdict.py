"""Which test a trial gets, and when the book says that its arms differ.

The rule, kept to 5 % ± 0.5 false alarms by simulation (tests/bench/null_trials.py):

1. Arms with equal numbers of trays whose spreads look alike (largest standard deviation less
   than ALIKE times the smallest, or ALIKE_MANY from MANY trays per arm on) get the one-way
   analysis of variance. If the true spreads are equal its chance is exact whatever their ratio
   looks like, because that ratio is independent of F; if they are not, equal numbers protect it.
2. Everything else gets Welch's F. A test of "are the spreads equal?" does not decide: with few
   trays it passes nearly always, and the analysis of variance then gives 12 to 20 % false alarms
   when the arm with few trays is the uneven one.
3. Welch's formula is itself too generous with few trays (up to 9 % false alarms). So below
   PLENTY trays in any arm its chance must also hold when 20,000 trials with these numbers and
   spreads are drawn. Where an arm has fewer than SCARCE trays and another LOPSIDED times as many,
   even that is too generous: the book then asks for half the usual chance.

An arm that shows no spread of its own (one tray, or trays that all weigh the same) gets the
analysis of variance, which lends it the others' spread; nothing is ever declared from that.

The promise holds from five trays per arm on. With fewer the rate never passes 6.5 % and is mostly
lower than 5 %: so few trays seldom show anything.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.one_way import Anova, drawn_chance, one_way, welch

Design = Literal["one tray", "one way", "welch", "blocks"]

CHANCE = 0.05
ALIKE = 1.6
ALIKE_MANY = 1.8
MANY = 10
PLENTY = 20
SCARCE = 5
LOPSIDED = 1.5


@dataclass(frozen=True, slots=True)
class Verdict:
    """The test, its result (None where nothing varies), and whether the arms are shown to differ.

    `bar` is the chance that the result must stay below. Where drawn trials overturned Welch's
    chance, `anova.p` is the drawn chance and `too_hopeful` the one of the formula.
    """

    design: Design
    anova: Anova | None
    too_hopeful: float | None
    bar: float
    shown: bool


def spreads_alike(arms: Sequence[Arm]) -> bool:
    """Say whether the arms' spreads look alike enough for one error (rule 1)."""
    sds = [arm.sd or 0.0 for arm in arms]
    limit = ALIKE_MANY if min(arm.n for arm in arms) >= MANY else ALIKE
    return min(sds) > 0 and max(sds) < limit * min(sds)


def verdict(arms: Sequence[Arm]) -> Verdict:
    """Judge arms that each have a weighed tray, without blocks, by the rule of this module."""
    if max(arm.n for arm in arms) == 1:
        return Verdict("one tray", None, None, CHANCE, shown=False)
    numbers = {arm.n for arm in arms}
    flat = any(not arm.variance for arm in arms)
    if flat or (len(numbers) == 1 and spreads_alike(arms)):
        anova = one_way(arms)
        shown = not flat and anova is not None and anova.p < CHANCE
        return Verdict("one way", anova, None, CHANCE, shown)
    return _by_welch(arms)


def _by_welch(arms: Sequence[Arm]) -> Verdict:
    least = min(arm.n for arm in arms)
    most = max(arm.n for arm in arms)
    bar = CHANCE / 2 if least < SCARCE and most >= LOPSIDED * least else CHANCE
    anova = welch(arms)
    too_hopeful = None
    if anova is not None and anova.p < bar and least < PLENTY:
        drawn = drawn_chance(arms, anova.f)
        if drawn >= bar:
            too_hopeful, anova = anova.p, replace(anova, p=drawn)
    return Verdict("welch", anova, too_hopeful, bar, anova is not None and anova.p < bar)
