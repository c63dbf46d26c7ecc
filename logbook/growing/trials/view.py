"""Judging a trial: weights, confounders, money, tasting and criteria, in one view."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import datetime
from typing import ClassVar
from zoneinfo import ZoneInfo

from logbook.growing.crops.templates import CropTemplate
from logbook.growing.currencies import Currency
from logbook.growing.measures import Units
from logbook.growing.numbers import numbers_words
from logbook.growing.trials.advice import advice
from logbook.growing.trials.arms import Arm, RoomSpread, gather
from logbook.growing.trials.confounders import Confounders
from logbook.growing.trials.course import AFTER_END, Course, course_of
from logbook.growing.trials.criteria import Criterion, Priorities, weigh_criteria
from logbook.growing.trials.factors import factor_words
from logbook.growing.trials.facts import trial_confounders
from logbook.growing.trials.judging import Judgement, judge
from logbook.growing.trials.kept import Decision, Trial, TriangleTest
from logbook.growing.trials.measured import DAYS, HEIGHT, Measured, measured
from logbook.growing.trials.money import Costs, Prices, trial_costs
from logbook.growing.trials.record import TrayRecord
from logbook.growing.trials.tasted import TastingResult
from logbook.growing.trials.words import joined
from logbook.text import Refused, listed, plural


@dataclass(frozen=True, slots=True)
class TrialFacts:
    """All that the book holds of a trial, in one reading; `said_at` is when `weights` were said."""

    trial: Trial
    template: CropTemplate
    records: tuple[TrayRecord, ...]
    spread: RoomSpread
    tasting: TastingResult | None
    triangles: tuple[TriangleTest, ...]
    said_at: datetime | None
    weights: Mapping[str, float]
    decisions: tuple[Decision, ...]
    zone: ZoneInfo
    money: Currency


@dataclass(frozen=True, slots=True)
class TrialView(TrialFacts):
    """All that is known of a trial. `judged` is None while `why_not` says what is missing."""

    arms: tuple[Arm, ...]
    course: Course
    judged: Judgement | None
    why_not: str
    confounders: Confounders
    costs: Costs
    measured: tuple[Measured, ...]
    weighing: Priorities | None
    advice: str

    @property
    def waiting(self) -> int:
        """Trays that are not off the rack yet and count."""
        return sum(not record.ended and not record.left_out for record in self.records)

    @property
    def strange(self) -> str:
        """Name the trays that count but were sown from another template; '' where there are none."""
        others = [each for each in self.records if each.strange and not each.left_out]
        numbers = numbers_words(each.name for each in others)
        names = listed(list(dict.fromkeys(each.strange for each in others)))
        of = f"{'was' if len(others) == 1 else 'were'} sown from {names}, not from {self.template.name}"
        return f"Not all trays are from one template: {numbers} {of}." if others else ""

    @property
    def words(self) -> str:
        """The verdict; which trays are of another template comes first."""
        tested = self.judged is not None and self.judged.design != "one tray"
        return joined(self.strange, self.course.words if tested else "", self.advice)


@dataclass(frozen=True, slots=True)
class MeasuredBesides:
    """What was measured besides grams, each under its own name, its figures in its own unit."""

    each: tuple[Measured, ...]
    units: Units


@dataclass(frozen=True, slots=True)
class JudgedTrial:
    """A trial judged."""

    keys: ClassVar = """
        trial=view.trial.name question=view.trial.question thing=view.trial.factor
        crop=view.template.label seed=view.trial.layout_number spread_percent=view.spread.percent
        spread_rests_on_trays=view.spread.trays still_growing=view.waiting
        planned_trays=view.course.planned trays_done=view.course.done
        p_must_be_below=view.course.threshold judged=view.judged
        why_not=view.why_not likeness=view.confounders measured cost_per_100_g=view.costs.per_100_g
        currency=view.costs.money.code cost_not_known=view.costs.missing weighed_up=view.weighing.places
        decisions=view.decisions words=view.words
    """

    view: TrialView
    units: Units

    @property
    def measured(self) -> MeasuredBesides:
        """What was measured besides grams."""
        return MeasuredBesides(self.view.measured, self.units)


@dataclass(frozen=True, slots=True)
class JudgedTrays(JudgedTrial):
    """A trial judged, with its trays."""

    keys: ClassVar = f"{JudgedTrial.keys} trays=view.records"


def judged_view(facts: TrialFacts, spread: float | None, prices: Prices) -> TrialView:
    """Judge a trial from what is known of it; `spread` in % overrules the room's own."""
    trial, course = facts.trial, course_of(facts.trial, facts.records, facts.zone)
    records = tuple(
        replace(each, left_out=AFTER_END)
        if each.name in course.late and not each.left_out
        else each
        for each in facts.records
    )
    facts = replace(facts, records=records)
    arms = every_arm(trial, records)
    order = [arm.name for arm in trial.arms]
    by_arm = sorted(records, key=lambda record: order.index(record.arm))
    alike = trial_confounders(by_arm, trial.factor, facts.zone)
    known = (facts.spread.percent, facts.spread.df) if spread is None else (spread, math.inf)
    judged, why_not = _judged(by_arm, course, *known)
    costs = trial_costs(records, arms, prices, shown=judged is not None and judged.shown,
                        money=facts.money)  # fmt: skip
    weighing = _weighing(facts, arms, judged, costs) if facts.weights else None
    advised, runs = why_not, len({record.run for record in records})
    if judged:
        advised = advice(judged, alike, factor_words(trial.factor), weighing, runs)
    return TrialView(
        **{each.name: getattr(facts, each.name) for each in fields(facts)}, arms=arms,
        course=course, judged=judged, why_not=why_not, confounders=alike, costs=costs,
        measured=_measured(trial, by_arm, course), weighing=weighing, advice=advised,
    )  # fmt: skip


def every_arm(trial: Trial, records: Sequence[TrayRecord]) -> tuple[Arm, ...]:
    """All arms in the trial's order, those without trays too."""
    found = {arm.name: arm for arm in gather(records)}
    return tuple(found.get(arm.name, Arm(arm.name, ())) for arm in trial.arms)


def _judged(
    records: Sequence[TrayRecord], course: Course, spread: float, spread_df: float
) -> tuple[Judgement | None, str]:
    if not records:
        return None, "No tray is in this trial yet; sow it, or add trays."
    growing = sum(not record.ended and not record.left_out for record in records)
    if course.early and any(record.grams for record in records):
        return None, course.early
    try:
        return judge(records, spread, spread_df=spread_df, threshold=course.threshold), ""
    except Refused as refused:
        if growing and not any(record.grams for record in records):
            return None, f"Nothing is cut yet: {plural(growing, 'tray')} still growing."
        return None, str(refused)


def _measured(trial: Trial, records: Sequence[TrayRecord], course: Course) -> tuple[Measured, ...]:
    """Judge what is measured besides grams, where anything of it is recorded."""
    wanted = [each for each in (HEIGHT, DAYS) if each.name in trial.measures.split()]
    found = (
        measured(each, [replace(r, grams=each.get(r)) for r in records], course) for each in wanted
    )
    return tuple(filter(None, found))


def _weighing(
    facts: TrialFacts, arms: Sequence[Arm], judged: Judgement | None, costs: Costs
) -> Priorities:
    names = [arm.name for arm in arms if arm.n]
    criteria, lacking = [], []
    for one, weight in facts.weights.items():
        by_arm, more, shown = _criterion(one, arms, judged, facts.tasting, costs)
        if by_arm and set(names) <= by_arm.keys():
            values = {name: by_arm[name] for name in names}
            criteria.append(Criterion(one, weight, values, more, shown))
        else:
            lacking.append(one)
    after = f" Not counted, as nothing is known of it yet: {listed(lacking)}." if lacking else ""
    cuts = [record.state.ended_at for record in facts.records if record.state.status == "cut"]
    if facts.said_at and any(at and facts.said_at > at for at in cuts):
        late = "What counts was set after the first tray was cut"
        after += f" {late}, so it may lean towards what was seen."
    try:
        result = weigh_criteria(criteria)
    except Refused as refused:
        words = str(refused) if criteria else "No arm can be ahead yet."
        result = Priorities(words, facts.weights)
    return replace(result, words=f"{result.words}{after}", weights=facts.weights)


def _criterion(
    one: str, arms: Sequence[Arm], judged: Judgement | None, tasting: TastingResult | None,
    costs: Costs,
) -> tuple[Mapping[str, float], bool, bool]:  # fmt: skip
    """A criterion's values by arm (none: not known), whether more is better, and whether shown."""
    if one == "yield" and judged:
        return {arm.name: arm.mean for arm in arms if arm.mean}, True, judged.shown
    if one == "cost":
        return costs.per_100_g, False, True
    for aspect in tasting.aspects if tasting else ():
        if aspect.aspect == one and aspect.ranks is not None:
            means = {sample.name: sample.mean_rank for sample in aspect.ranks.samples}
            return means, False, aspect.ranks.shown
    return {}, False, False
