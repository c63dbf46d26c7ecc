"""What the invented room compares side by side, how its arms really turn out, and its deciding."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import partial

from logbook.actions.trials.deciding import adopt_within
from logbook.actions.trials.joining import join_trial
from logbook.actions.trials.setting_up import TrialDraft, set_up
from logbook.actions.trials.tasting import SampleSaid, new_tasting, taste
from logbook.growing.measures import grams
from sample_db.cohort import Cohort
from sample_db.sowings import Habit
from sample_db.versions import Version
from sample_db.world import FIRST_NUMBER, World


@dataclass(frozen=True, slots=True)
class TriedArm:
    """An arm, its value ("": a free word will do), and what it really `gives` against the usual."""

    name: str
    setting: str
    gives: float

    @property
    def text(self) -> str:
        """As it is written at a set-up."""
        return f"{self.name}={self.setting}" if self.setting else self.name

    @property
    def seed(self) -> float | None:
        """Dry seed of a tray in g; None for as much as always."""
        return grams(self.setting) if self.setting else None


@dataclass(frozen=True, slots=True)
class Tried:
    """A trial: every batch of its crop of these ages has one tray of each arm.

    `tasted` is when there was a tasting (days ago), `scores` taster → taste of each arm, `words`
    what one said of the second; `decided` is when `adopts` was taken into the template.
    """

    name: str
    crop: str
    question: str
    thing: str
    arms: tuple[TriedArm, TriedArm]
    ages: tuple[int, ...]
    weeks: int
    seed: int
    counts: Mapping[str, float]
    measures: tuple[str, ...]
    tasted: int | None = None
    scores: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    words: tuple[str, str] = ("", "")
    decided: int | None = None
    adopts: str = ""
    why: str = ""
    try_next: str = ""


TRIALS = (
    Tried(
        "thicker broccoli", "broccoli", "Does 25 g of broccoli seed a tray cut more than our 20 g?",
        "density", (TriedArm("usual", "20 g", 1.0), TriedArm("thicker", "25 g", 1.15)),
        (66, 59, 52, 45, 38, 31, 24), 7, 4071, {"yield": 3, "taste": 2, "cost": 1}, ("taste",),
        tasted=14,
        scores={"IV": (7, 7), "TM": (6, 7), "OQ": (7, 6), "the chef at [No. 9]": (8, 7)},
        words=("the chef at [No. 9]", "stems a shade thinner, I would not send it back"),
        decided=7, adopts="thicker",
        why="it cuts more, and the tasters find no difference.",
        try_next="30 g, with a fan on: watch for mould.",
    ),
    Tried(
        "heavier weight", "sunflower", "Do more hulls come off under two bricks than under one?",
        "the weight on top",
        (TriedArm("one brick", "", 1.0), TriedArm("two bricks", "", 0.98)),
        (13, 6), 4, 2290, {"looks": 3, "yield": 1}, ("looks", "days"),
    ),
)  # fmt: skip


def tried_with(habit: Habit, age: int) -> Tried | None:
    """The trial that a batch is part of, by its crop, trays and age in days."""
    for tried in TRIALS:
        if tried.crop == habit.crop and age in tried.ages and habit.trays == len(tried.arms):
            return tried
    return None


def await_trials(world: World) -> None:
    """Have the trials set up, tasted and decided at their moments."""
    days = world.days
    for tried in TRIALS:
        world.agenda.put(days.on(max(tried.ages) + 2, 60), partial(_set_up, world, tried))
        if tried.tasted is not None:
            world.agenda.put(days.on(tried.tasted, 240), partial(_taste, world, tried))
        if tried.decided is not None:
            world.agenda.put(days.on(tried.decided, 120), partial(_decide, world, tried))


def _set_up(world: World, tried: Tried, at: datetime) -> None:
    draft = TrialDraft(
        tried.name, tried.crop, tried.thing, tuple(arm.text for arm in tried.arms),
        tried.question, tried.measures, weeks=tried.weeks, layout_number=tried.seed, weights=tried.counts,
    )  # fmt: skip
    set_up(world.owner_acts(at), draft)


def join(world: World, cohorts: Sequence[Cohort], at: datetime) -> None:
    """Say which arms the trays of a sowing are in; its week is counted from the first one."""
    habit, age = cohorts[0].habit, cohorts[0].age
    tried = next(each for each in TRIALS if each.crop == habit.crop)
    week = sorted(tried.ages, reverse=True).index(age) + 1
    for arm, cohort in zip(tried.arms, cohorts, strict=True):
        numbers = [FIRST_NUMBER - 1 + tray for tray in cohort.ids]
        join_trial(world.act(at), tried.name, arm.name, numbers, run=week)


def _taste(world: World, tried: Tried, at: datetime) -> None:
    book = world.owner_acts(at)
    codes = new_tasting(book, tried.name, seed=tried.seed).codes
    for taster, scores in tried.scores.items():
        said = {
            codes[arm.name]: SampleSaid({"taste": score})
            for arm, score in zip(tried.arms, scores, strict=True)
        }
        if taster == tried.words[0]:
            said[codes[tried.arms[1].name]] = SampleSaid({"taste": scores[1]}, tried.words[1])
        taste(book, tried.name, taster, said)


def _decide(world: World, tried: Tried, at: datetime) -> None:
    with world.owner_acts(at).writing() as act:
        version, done = adopt_within(act, tried.name, tried.adopts, tried.why, tried.try_next)
    world.versions[tried.crop].append(Version(version, at, done.template))
