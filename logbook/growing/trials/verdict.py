"""Which test a trial gets, and when the book says that its arms differ.

The rule, kept to 5 % ± 0.5 false alarms by simulation (tests/bench/null_trials.py):

1. Arms with equal numbers of trays get the one-way analysis of variance, unless alike arms would
   have spreads so unlike less often than SIGNIFICANCE (Hartley's ratio). Where the true spreads are
   equal its chance is exact whatever that ratio is, because the ratio is independent of F. Where
   they look unlike Welch's F must show the difference as well, which makes 4.7 to 5 of the 5 %.
2. So do arms of unequal numbers with fewer than SCARCE trays in one of them and at most twice as many
   in another: an arm's own spread says next to nothing there, and Welch's F would see few of the
   differences that are there.
3. Everything else gets Welch's F alone. Its formula is itself too generous with few trays, the more so the
   more arms there are (to 9 %). So below PLENTY trays in any arm its chance must also hold for alike
   arms with these numbers and spreads: worked out for two arms (see significance), counted from
   20,000 drawn trials for more. With SOUND trays or fewer beside more than twice as many both F must
   show the difference, which they do in 3 to 5 of 100 alike trials.
4. An arm of fewer trays than SOUND is set aside where two others have as many: beside them its
   own spread is a guess, and it would make the rule too generous (7 % with 12, 12 and 2 trays) or
   too strict for all.

An arm that shows no spread of its own (one tray, or trays that all weigh the same) gets the
analysis of variance, which lends it the others' spread; nothing is ever declared from that.

The promise holds where trays of all arms spread alike, which is what a trial is laid out for. Where
one arm spreads three times as much, identical arms differ up to 7 times in 100 instead of 5 with
three arms of 5 trays, 11 times with six of 3; from ten trays on not. The words say so.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import SIGNIFICANCE
from logbook.growing.trials.one_way import Anova, bootstrap_p_value, one_way, welch
from logbook.growing.trials.significance import SCARCE, chance_of_unlike, corrected_p

Design = Literal["one tray", "one way", "welch", "blocks"]

SOUND = 3
PLENTY = 20


@dataclass(frozen=True, slots=True)
class Verdict:
    """The test, its result (None where nothing varies), and whether the arms are shown to differ.

    `threshold` is the chance that the result must stay below. Where alike arms overturned Welch's
    chance, `anova.p` is that of alike arms and `too_hopeful` the one of the formula.
    """

    design: Design
    anova: Anova | None
    threshold: float
    shown: bool
    too_hopeful: float | None = None


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


def takes_one_spread(numbers: Sequence[int]) -> bool:
    """Whether arms of these numbers, the fewest first, get one spread unless theirs look unlike."""
    fewest, most = numbers[0], numbers[-1]
    return fewest == most or (fewest < SCARCE and most <= 2 * fewest)


def verdict(arms: Sequence[Arm], threshold: float = SIGNIFICANCE) -> Verdict:
    """Judge arms that each have a weighed tray, without blocks, by the rule of this module."""
    if max(arm.n for arm in arms) == 1:
        return Verdict("one tray", None, threshold, shown=False)
    if any(not arm.variance for arm in arms):
        return Verdict("one way", one_way(arms), threshold, shown=False)
    numbers = tuple(sorted(arm.n for arm in arms))
    spreads = [arm.sd or 0.0 for arm in arms]
    one_spread = takes_one_spread(numbers)
    unlike = max(spreads) / min(spreads)
    if not one_spread or chance_of_unlike(unlike, numbers) < SIGNIFICANCE:
        guarded = one_spread or numbers[0] <= SOUND
        return _by_welch(arms, threshold, one_way(arms) if guarded else None)
    anova = one_way(arms)
    return Verdict("one way", anova, threshold, anova is not None and anova.p < threshold)


def _by_welch(arms: Sequence[Arm], threshold: float, pooled: Anova | None) -> Verdict:
    anova = welch(arms)
    too_hopeful = None
    if anova is not None and anova.p < threshold:
        true = pooled.p if pooled else 0.0
        if min(arm.n for arm in arms) < PLENTY:
            pair = len(arms) == 2
            own = (
                corrected_p(arms[0], arms[1], anova.p) if pair else bootstrap_p_value(arms, anova.f)
            )
            true = max(true, own)
        if true >= threshold:
            too_hopeful, anova = anova.p, replace(anova, p=true)
    shown = anova is not None and anova.p < threshold and too_hopeful is None
    return Verdict("welch", anova, threshold, shown, too_hopeful=too_hopeful)
