"""Saying anew when a trial ends: how many trays per arm its verdict waits for."""

from dataclasses import replace

from logbook.actions.book import Book
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trials.finding import find_trial
from logbook.actions.trials.judging import judge_trial
from logbook.actions.trials.words import promise_words
from logbook.growing.quantities import REPLICATES
from logbook.growing.trials.replicates import detectable_difference
from logbook.growing.trials.view import TrialView
from logbook.text import Refused, plural
from logbook.ways import Way


def plan_end(book: Book, name: str, per_arm: int) -> Done:
    """Say how many trays per arm the planned end takes, in all blocks and weeks, or raise Refused.

    1 is no planned end. Once trays are weighed it is judged at every look from then on; once the
    planned end has come there is nothing left to plan.
    """
    REPLICATES.checked(per_arm)
    view = judge_trial(book, name)
    known, course = view.trial, view.course
    if course.over and not course.open:
        raise Refused(
            f"The planned end of {known.name} has come: all {course.planned} trays are weighed or "
            f"discarded. Set up a new trial ({Way.TRIAL_NEW})."
        )
    if per_arm == known.per_arm:
        raise Refused(f"The planned end of {known.name} is {_end(per_arm)} already.")
    with book.writing() as act:
        trial = find_trial(name, act.reading)
        entry = act.entry("trial_end", [], note=f"{trial.name}: {_end(per_arm)}")
        act.put("trial_end", entry, trial_id=trial.id, per_arm=per_arm)
        done = done_of(act, f"planned end of {trial.name}: {_end(per_arm)}", ())
    return replace(done, notices=_notices(judge_trial(book, name)))


def _end(per_arm: int) -> str:
    return f"{per_arm:,} trays per arm" if per_arm > 1 else "none (one tray per arm)"


def _notices(view: TrialView) -> tuple[str, ...]:
    """What the change costs, or what the trial can show by it."""
    trial, planned = view.trial, view.course.planned or 0
    arms = len(trial.arms)
    more = planned > trial.per_arm * arms
    has = f"It has {plural(planned, 'tray')} already, and all of them count." if more else ""
    if view.course.open:
        return tuple(filter(None, (has, view.course.words)))
    try:
        cell = trial.replicates if trial.blocks else 0
        seen = detectable_difference(view.spread.percent, planned // arms, arms=arms, cell=cell)
    except Refused as refused:
        return tuple(filter(None, (has, str(refused))))
    said = "" if seen is None else f"As planned, {promise_words(arms, planned // arms, seen)}."
    return tuple(filter(None, (has, said)))
