"""Judging a trial of the book: all that is known of it is gathered in one reading, then judged."""

from __future__ import annotations

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trials.finding import find_trial
from logbook.actions.trials.records import records_of
from logbook.actions.trials.setting_up import spread_of_room
from logbook.growing.quantities import USUAL_SPREAD
from logbook.growing.trials.kept import Trial
from logbook.growing.trials.prices import Prices
from logbook.growing.trials.tasted import tasting_result, triangle_results
from logbook.growing.trials.view import TrialFacts, TrialView, judged_view
from logbook.store.reads import trials


def judge_trial(
    book: Book, name: str, spread: float | None = None, prices: Prices | None = None
) -> TrialView:
    """Judge a trial as it stands.

    Args:
        book: the book.
        name: the trial's.
        spread: the spread from tray to tray in %, where the grower knows better than the book.
        prices: what seed and work cost, where that is known.

    Raises:
        Refused: no such trial, or a spread that cannot be.
    """
    if spread is not None:
        USUAL_SPREAD.checked(spread)
    with book.reading() as reading:
        trial = find_trial(name, reading)
        facts = _facts(reading, trial)
    return judged_view(facts, spread, prices or Prices())


def _facts(reading: Reading, trial: Trial) -> TrialFacts:
    mine = [tray.tray_id for tray in trials.read_trial_trays(reading, trial.id)]
    tastings = trials.read_tastings(reading, trial.id)
    tasting = None
    if tastings:
        answers = trials.read_answers(reading, tastings[-1].id)
        tasting = tasting_result(trial, tastings[-1], len(tastings), answers)
    said_at, weights = trials.read_criteria(reading, trial.id)
    return TrialFacts(
        trial=trial,
        template=reading.version(trial.version_id),
        records=records_of(reading, trial),
        spread=spread_of_room(reading, trial.version_id, mine),
        tasting=tasting,
        triangles=triangle_results(trial, trials.read_triangles(reading, trial.id)),
        said_at=said_at,
        weights=weights,
        decisions=tuple(trials.read_decisions(reading, trial.id)),
        zone=reading.zone,
    )
