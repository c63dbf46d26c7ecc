"""Which test a trial gets, and when the book says that its arms differ.

The rule, kept to 5 % ± 0.5 false alarms by simulation (tests/bench/null_trials.py):

1. Arms with equal numbers of trays whose spreads look alike (largest standard deviation less
   than ALIKE times the smallest) get the one-way analysis of variance. If the true spreads are
   equal its chance is exact whatever their ratio looks like, because that ratio is independent
   of F; if they are not, equal numbers protect it, though not wholly. From MANY trays per arm on
   it is taken up to ALIKE_MANY, but between the two a difference is declared only where Welch's
   F shows it as well.
2. Everything else gets Welch's F. A test of "are the spreads equal?" does not decide: with few
   trays it passes nearly always, and the analysis of variance then gives 12 to 20 % false alarms
   when the arm with few trays is the uneven one.
3. Welch's formula is itself too generous with few trays, the more so the more arms there are (to
   9 %). So below PLENTY trays in any arm its chance must also hold for alike arms with these
   numbers and spreads: worked out for two arms (see bar), counted from 20,000 drawn trials for
   more. Below SCARCE trays spreads say too little for that: there the chance must stay below a
   bar worked out from the smallest and the largest arm (two arms, or numbers that differ).

4. An arm of fewer trays than SOUND is set aside where two others have as many: beside them its
   own spread is a guess, and it would make the rule too generous (7 % with 12, 12 and 2 trays) or
   too strict for all.

An arm that shows no spread of its own (one tray, or trays that all weigh the same) gets the
analysis of variance, which lends it the others' spread; nothing is ever declared from that.

The promise holds from five trays per arm on. With fewer the rate does not pass 5.5 % either and is
mostly lower than 5 %: so few trays seldom show anything.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import SIGNIFICANCE
from logbook.growing.trials.one_way import Anova, bootstrap_p_value, one_way, welch
from logbook.growing.trials.significance import ALIKE, corrected_p, threshold_of

Design = Literal["one tray", "one way", "welch", "blocks"]

ALIKE_MANY = 1.8
MANY = 10
SOUND = 3
PLENTY = 20


@dataclass(frozen=True, slots=True)
class Verdict:
    """The test, its result (None where nothing varies), and whether the arms are shown to differ.

    `threshold` is the chance that the result must stay below. Where alike arms overturned Welch's
    chance, `anova.p` is that of alike arms and `too_hopeful` the one of the formula. Where the
    one-way analysis shows a difference and Welch's does not, `own_spreads` is Welch's chance.
    """

    design: Design
    anova: Anova | None
    threshold: float
    shown: bool
    too_hopeful: float | None = None
    own_spreads: float | None = None


def judgeable(arms: Sequence[Arm]) -> tuple[Arm, ...]:
    """The arms that are held against one another (rule 4); at least two where there are two.

    With no two arms of SOUND trays those of two or more are taken, and with no two of these all
    that have a weighed tray.
    """
    for least in (SOUND, 2):
        enough = tuple(arm for arm in arms if arm.n >= least)
        if len(enough) > 1:
            return enough
    return tuple(arm for arm in arms if arm.n)


def verdict(arms: Sequence[Arm]) -> Verdict:
    """Judge arms that each have a weighed tray, without blocks, by the rule of this module."""
    if max(arm.n for arm in arms) == 1:
        return Verdict("one tray", None, SIGNIFICANCE, shown=False)
    if any(not arm.variance for arm in arms):
        return Verdict("one way", one_way(arms), SIGNIFICANCE, shown=False)
    numbers = {arm.n for arm in arms}
    spreads = [arm.sd or 0.0 for arm in arms]
    unlike = max(spreads) / min(spreads)
    if len(numbers) > 1 or unlike >= (ALIKE_MANY if min(numbers) >= MANY else ALIKE):
        return _by_welch(arms)
    anova = one_way(arms)
    shown = anova is not None and anova.p < SIGNIFICANCE
    if shown and unlike >= ALIKE:
        other = _by_welch(arms)
        if other.anova is not None and not other.shown:
            return Verdict("one way", anova, SIGNIFICANCE, shown=False, own_spreads=other.anova.p)
    return Verdict("one way", anova, SIGNIFICANCE, shown)


def _by_welch(arms: Sequence[Arm]) -> Verdict:
    least, most = min(arm.n for arm in arms), max(arm.n for arm in arms)
    pair = len(arms) == 2
    threshold = threshold_of(least, most, len(arms)) if pair or least < most else SIGNIFICANCE
    anova = welch(arms)
    too_hopeful = None
    if anova is not None and anova.p < threshold and least < PLENTY:
        true = corrected_p(arms[0], arms[1], anova.p) if pair else bootstrap_p_value(arms, anova.f)
        if true >= (SIGNIFICANCE if pair else threshold):
            too_hopeful, anova = anova.p, replace(anova, p=true)
    shown = anova is not None and anova.p < threshold and too_hopeful is None
    return Verdict("welch", anova, threshold, shown, too_hopeful=too_hopeful)
