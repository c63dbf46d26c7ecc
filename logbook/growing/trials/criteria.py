"""Weighing up: what the grower said beforehand matters, arm by arm, and what would flip it.

Each criterion gives an arm points from 0 (the worst arm there) to 10 (the best), times its
weight. A criterion in which no difference is shown gives every arm the same, because points for
chance would make chance decide.
"""

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import ClassVar

from logbook.growing.measures import number_words
from logbook.growing.quantities import PRIORITY
from logbook.text import Refused, clean, listed

POINTS = 10.0


@dataclass(frozen=True, slots=True)
class Criterion:
    """What counts: its weight (0 or more), the arms' values, and whether a difference is shown."""

    name: str
    weight: float
    values: Mapping[str, float]
    more_is_better: bool = True
    shown: bool = True


@dataclass(frozen=True, slots=True)
class RankedArm:
    """An arm with its points out of 10, best first."""

    arm: str
    points: float


@dataclass(frozen=True, slots=True)
class TippingPoint:
    """The weight of one criterion, others kept, at which `arm` draws level with the first."""

    criterion: str
    weight: float
    needed: float
    arm: str


@dataclass(frozen=True, slots=True)
class Priorities:
    """The grower's own weights laid over a trial; no places where nothing can be weighed.

    `level` are the arms that share the first place.
    """

    keys: ClassVar = "weights places flips words"

    words: str
    weights: Mapping[str, float]
    places: tuple[RankedArm, ...] = ()
    """Arms by points, the first one first."""
    flips: tuple[TippingPoint, ...] = ()
    """Weights that would put another arm first."""
    level: tuple[str, ...] = ()


def weigh_criteria(criteria: Sequence[Criterion]) -> Priorities:
    """Rank the arms, or raise Refused: no criteria, a bad weight or value, other arms in some."""
    arms = _checked(criteria)
    whole = math.fsum(one.weight for one in criteria)
    points = {one.name: _points(one, arms) for one in criteria}
    totals = {
        arm: math.fsum(one.weight * points[one.name][arm] for one in criteria) / whole
        for arm in arms
    }
    order = sorted(arms, key=lambda arm: -totals[arm])
    places = tuple(RankedArm(arm, totals[arm]) for arm in order)
    level = tuple(arm for arm in order if math.isclose(totals[arm], totals[order[0]], abs_tol=1e-9))
    flips = () if len(level) > 1 else _flips(criteria, points, order)
    weights = {one.name: one.weight for one in criteria}
    not_shown = [one.name for one in criteria if not one.shown and one.weight > 0]
    if len(not_shown) == sum(weight > 0 for weight in weights.values()):
        words = "Nothing that counts for you is shown to differ, so no arm is ahead."
    elif len(level) > 1:
        words = f"By your priorities {listed(list(level))} are level."
    else:
        words = _words(places, flips)
    if not_shown:
        words += f" No difference is shown in {listed(not_shown)}, so it counts for no arm."
    return Priorities(words, weights, places, flips, level)


def _checked(criteria: Sequence[Criterion]) -> list[str]:
    if not criteria or not any(one.weight > 0 for one in criteria):
        raise Refused("Give at least one criterion a priority above 0.")
    arms = list(criteria[0].values)
    if len(arms) < 2:
        raise Refused("A choice by criteria needs two arms or more.")
    for one in criteria:
        if not (math.isfinite(one.weight) and one.weight >= 0):
            raise Refused(f'The priority of "{one.name}" must be 0 or more.')
        if set(one.values) != set(arms):
            raise Refused(f'"{one.name}" needs a value for each of {listed(arms)}.')
        if not all(math.isfinite(value) for value in one.values.values()):
            raise Refused(f'"{one.name}" has a value that is not a number.')
    return arms


def _points(one: Criterion, arms: Sequence[str]) -> dict[str, float]:
    low, high = min(one.values.values()), max(one.values.values())
    if not one.shown or high <= low:
        return dict.fromkeys(arms, POINTS / 2)
    share = {arm: (one.values[arm] - low) / (high - low) for arm in arms}
    return {arm: POINTS * (part if one.more_is_better else 1 - part) for arm, part in share.items()}


def _flips(
    criteria: Sequence[Criterion], points: Mapping[str, Mapping[str, float]], order: Sequence[str]
) -> tuple[TippingPoint, ...]:
    """The least change of each criterion's weight that would do, the least of all first."""
    first, *rivals = order
    gaps = {
        rival: {one.name: points[one.name][first] - points[one.name][rival] for one in criteria}
        for rival in rivals
    }
    found: dict[str, TippingPoint] = {}
    for one, rival in product(criteria, rivals):
        lead = math.fsum(each.weight * gaps[rival][each.name] for each in criteria)
        here = gaps[rival][one.name]
        if here and (needed := one.weight - lead / here) > 1e-9:
            flip = TippingPoint(one.name, one.weight, needed, rival)
            found[one.name] = min(found.get(one.name, flip), flip, key=_change)
    return tuple(sorted(found.values(), key=_change))


def _change(flip: TippingPoint) -> float:
    return abs(flip.needed - flip.weight)


def _words(places: Sequence[RankedArm], flips: Sequence[TippingPoint]) -> str:
    said = (
        f"By your priorities {places[0].arm} comes first with {number_words(places[0].points)} of 10 "
        f"points, before {places[1].arm} with {number_words(places[1].points)}."
    )
    if not flips:
        return f"{said} No change of a single priority would put another arm first."
    flip = flips[0]
    way = "more" if flip.needed > flip.weight else "less"
    return (
        f"{said} {flip.arm} would draw level if {flip.criterion} counted {way}: "
        f"{number_words(flip.needed)} instead of {number_words(flip.weight)}."
    )


def read_weights(text: str) -> dict[str, float]:
    """Read "yield 3, taste=2"; raise Refused for a part that is no name with a number."""
    weights = {}
    for part in clean(text, lines=False).split(","):
        if not part.strip():
            continue
        found = re.fullmatch(r"\s*([^\W\d_]+)\s*[=:]?\s*(\S+)\s*", part)
        if not found:
            raise Refused(f'"{part.strip()[:40]}" must be like yield 3.')
        weights[found[1]] = PRIORITY.named(f"priority of {found[1][:20]}").read(found[2])
    if not weights:
        raise Refused("What counts? Write it like yield 3, taste 2.")
    return weights


def weights_text(weights: Mapping[str, float]) -> str:
    """Write weights as they are typed."""
    return ", ".join(f"{name} {number_words(weight, 2)}" for name, weight in weights.items())
