"""What the invented room compares side by side, how its arms really turn out, and its deciding."""

from collections.abc import Sequence
from datetime import datetime
from functools import partial

from logbook.actions.trials.deciding import adopt_within
from logbook.actions.trials.joining import join_trial
from logbook.actions.trials.setting_up import TrialDraft, set_up
from logbook.actions.trials.tasting import SampleSaid, new_tasting, taste
from sample_db.cohort import Cohort
from sample_db.tried import TRIALS, Tried
from sample_db.versions import Version
from sample_db.world import FIRST_NUMBER, World


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
