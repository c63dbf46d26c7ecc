"""How much each criterion counts in a trial, written as part of an act."""

from __future__ import annotations

from collections.abc import Mapping

from logbook.actions.writing import Act
from logbook.growing.measures import number_words
from logbook.growing.quantities import PRIORITY
from logbook.store.tables import TrialCriterionRow
from logbook.text import Refused, fold, listed, nearest

CRITERIA = ("yield", "looks", "taste", "crunch", "cost")


def write_weights(act: Act, trial_id: int, name: str, weights: Mapping[str, float]) -> str:
    """Write criteria with their weights as part of an act; say them in words."""
    checked = _checked(weights)
    words = listed([f"{one} {number_words(weight, 2)}" for one, weight in checked.items()])
    entry = act.entry("weights", [], note=f"{name}: {words}")
    act.session.add_all(
        TrialCriterionRow(entry_id=entry, name=one, trial_id=trial_id, weight=weight)
        for one, weight in checked.items()
    )
    return words


def _checked(weights: Mapping[str, float]) -> dict[str, float]:
    checked = {}
    for one, weight in weights.items():
        key = fold(one)
        if key not in CRITERIA:
            raise Refused(
                f'"{one[:40]}" is not weighed up in a trial; use {listed(list(CRITERIA))}.'
                f"{nearest(one, list(CRITERIA))}"
            )
        checked[key] = PRIORITY.named(f"priority of {key}").checked(weight)
    if not any(checked.values()):
        raise Refused("Give at least one criterion a weight above 0, like yield=3.")
    return checked
