"""Trials to test with: short ways to set one up, sow it, and cut its trays."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import timedelta
from typing import Any

from logbook.actions.book import Book
from logbook.actions.trays.doing import did
from logbook.actions.trays.weighing import weigh
from logbook.actions.trials.judging import judge_trial
from logbook.actions.trials.setting_up import TrialDraft, TrialPlan, set_up
from logbook.actions.trials.sowing import SownTrial, SowTrialDraft, sow_trial
from logbook.clock import FixedClock
from logbook.growing.trials.view import TrialView
from tests.actions.days import stand_at
from tests.room import moment

ARMS = ("thin=80g", "thick=120g")


def plan_trial(**changes: Any) -> TrialDraft:
    """Give a draft of a trial of seed density with the field crop, two arms."""
    given: dict[str, Any] = {
        "name": "thick or thin",
        "crop": "field test",
        "factor": "density",
        "arms": ARMS,
        "question": "Does thicker sowing pay?",
        "replicates": 3,
        "layout_number": 7,
    }
    return TrialDraft(**{**given, **changes})


def make_trial(book: Book, **changes: Any) -> TrialPlan:
    """Set such a trial up, in time before the days on which it is sown."""
    if book.now() >= moment("2026-04-01 08:00"):
        stand_at(book, "2026-03-31 08:00")
    return set_up(book, plan_trial(**changes))


def sow_all(book: Book, at: str, name: str = "thick or thin", **more: Any) -> SownTrial:
    """Sow a trial at a wall time, the clock standing there."""
    stand_at(book, at)
    return sow_trial(book, name, SowTrialDraft(**more))


def later(book: Book, days: float) -> None:
    """Move the clock on."""
    assert isinstance(book.clock, FixedClock)
    book.clock.at += timedelta(days=days)


def grow(book: Book, sown: SownTrial) -> None:
    """Bring the trays of a sowing to the light and to their cut, watered once."""
    numbers = [number for number, _ in sown.spots]
    later(book, 4)
    did(book, "weight_off", numbers)
    later(book, 1)
    did(book, "light_on", numbers)
    did(book, "water", numbers, amount_ml=300)
    later(book, 2.5)


def cut(book: Book, sown: SownTrial, grams: Mapping[str, Sequence[float]]) -> None:
    """Weigh the trays of each arm, in the order of their numbers."""
    for arm in sown.arms:
        for number, weight in zip(arm.numbers, grams[arm.arm], strict=False):
            weigh(book, [number], weight)


def finished(book: Book, grams: Mapping[str, Sequence[float]], **changes: Any) -> TrialView:
    """Set a trial up, sow it on 1 April, cut it, and judge it."""
    stand_at(book, "2026-04-01 07:00")
    name = make_trial(book, **changes).asked.name
    sown = sow_all(book, "2026-04-01 08:00", name)
    grow(book, sown)
    cut(book, sown, grams)
    return judge_trial(book, name)
