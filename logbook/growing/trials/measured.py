"""What is measured of a trial besides grams, judged like grams: height, and days to the cut."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from logbook.growing.measures import Units, length_words, number_words
from logbook.growing.trials.arms import Arm, Tray, gather
from logbook.growing.trials.course import Course
from logbook.growing.trials.distributions import SIGNIFICANCE
from logbook.growing.trials.judging import Judgement, judge
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.verdict import judgeable
from logbook.growing.trials.words import count_word, difference_words, joined, p_words, set_aside
from logbook.text import Refused, listed, plural

MOST_SAID = 4
"""Pairs that are said in words; the rest is counted."""


@dataclass(frozen=True, slots=True)
class Measure:
    """Something that is measured of a tray.

    `unit` is what its figures are kept in; `apart` says one arm's gap over another, around the gap.
    """

    name: str
    unit: str
    head: str
    apart: tuple[str, str]
    written: Callable[[float, Units], str]
    get: Callable[[TrayRecord], float | None]


HEIGHT = Measure(
    "height", "mm", "Height at the last look", ("stood", "taller than"), length_words,
    lambda record: record.said.height_mm,
)  # fmt: skip
DAYS = Measure(
    "days", "days", "Days to the cut", ("took", "longer than"),
    lambda value, _units: f"{number_words(value)} days", lambda record: record.days,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Measured:
    """One quantity over the arms; `judged` is None where `why_not` says why.

    What a judgement calls grams is here in the quantity's unit.
    """

    quantity: Measure
    arms: tuple[Arm, ...]
    judged: Judgement | None
    why_not: str = ""

    def words(self, units: Units) -> str:
        """Say the arms' means and spreads, and what the gaps can and cannot say."""
        written, each = self.quantity.written, []
        for arm in self.arms:
            spread = f"spread {written(arm.sd, units)}, " if arm.sd is not None else ""
            mean = written(arm.mean or 0.0, units)
            each += [f"{arm.name} {mean} ({spread}{plural(arm.n, 'tray')})"] if arm.n else []
        return joined(f"{self.quantity.head}: {listed(each, most=8)}.", self._said(units))

    def _said(self, units: Units) -> str:
        judged = self.judged
        if judged is None:
            return self.why_not
        if judged.design == "one tray":
            return "One tray per arm: no test can be made of this."
        compared = self._compared(judged, units)
        if judged.design == "blocks":
            return compared
        used = judgeable(self.arms)
        flat = listed([arm.name for arm in used if arm.n > 1 and not arm.variance], most=4)
        alike = (
            f"Within {flat} all trays are the same, so there is no spread to judge a difference by."
        )
        return joined(alike if flat else compared, set_aside(self.arms, used))

    def _compared(self, judged: Judgement, units: Units) -> str:
        if judged.anova is None:
            return "Nothing varies within the arms, so chance cannot be judged."
        p, chance = judged.anova.p, p_words(judged.anova.p)
        pairs = (judged.told_apart or judged.pairs[:1])[:MOST_SAID]
        said = "; ".join(
            difference_words(
                pair, lambda value: self.quantity.written(value, units), *self.quantity.apart
            )
            for pair in pairs
        )
        if not judged.shown:
            few = " That is not enough here." if p < SIGNIFICANCE else ""
            return f"No difference is shown: {said} ({chance}).{few}"
        if not judged.told_apart:
            return f"The arms differ ({chance}), but no two of them can be told apart: {said}."
        more = len(judged.told_apart) - len(pairs)
        rest = f" So do {count_word(more)} more." if more else ""
        return f"The arms differ ({chance}): {said}.{rest}"


def measured(quantity: Measure, trays: Sequence[Tray], course: Course) -> Measured | None:
    """Judge one quantity; `grams` of the trays holds it in its unit. None where nobody has it.

    A value of 0 counts like any other: nothing up yet is a height.
    """
    trays = [replace(tray, zero_counts=True) for tray in trays]
    arms = gather(trays)
    if not any(arm.n for arm in arms):
        return None
    if course.early:
        return Measured(quantity, arms, None, "No verdict before the planned end.")
    try:
        return Measured(quantity, arms, judge(trays, threshold=course.threshold))
    except Refused as refused:
        few = sum(arm.n > 0 for arm in arms) < 2
        why = "One arm alone cannot be compared." if few else str(refused)
        return Measured(quantity, arms, None, why)
