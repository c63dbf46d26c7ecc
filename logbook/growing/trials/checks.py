"""What a comparison takes for granted, checked as far as the weights allow, in words."""

from __future__ import annotations

import math
from collections.abc import Sequence

from logbook.growing.measures import number_words
from logbook.growing.trials.arms import Arm
from logbook.growing.trials.distributions import SIGNIFICANCE, special
from logbook.growing.trials.one_way import pooled_error
from logbook.growing.trials.verdict import Design
from logbook.growing.trials.words import grams_of
from logbook.text import listed, plural


def checks_of(arms: Sequence[Arm], design: Design) -> tuple[str, ...]:
    """Say how the spreads compare, which tray stands apart, and what cannot be checked."""
    least = min(arm.n for arm in arms)
    few = f"With only {plural(least, 'tray')} in an arm this is a rough picture."
    by_chance = "It holds if trays were placed by chance and nothing else differed between arms."
    said = (_spreads(arms, design), _far_tray(arms), few if least < 4 else "", by_chance)
    return tuple(filter(None, said))


def _spreads(arms: Sequence[Arm], design: Design) -> str:
    flat = [arm.name for arm in arms if arm.n > 1 and not arm.variance]
    if flat:
        return (
            f"Within {listed(flat, most=4)} all trays weigh exactly the same, which weighed trays "
            "hardly ever do: check the entries and the scale's steps. Nothing is claimed."
        )
    spread = [arm for arm in arms if arm.sd]
    if len(spread) < 2:
        return ""
    wide = max(spread, key=lambda arm: arm.sd or 0.0)
    narrow = min(spread, key=lambda arm: arm.sd or 0.0)
    times = number_words((wide.sd or 0.0) / (narrow.sd or 1.0))
    if design == "one way":
        return (
            f"The arms' spreads look alike (widest {times} times the narrowest), so one spread "
            "serves all."
        )
    return (
        f"Each arm is taken with its own spread (widest {wide.name}, {times} times the narrowest, "
        f"{narrow.name})."
    )


def _far_tray(arms: Sequence[Arm]) -> str:
    """Name the tray farthest from its arm's others, where chance would hardly put one."""
    error, df = pooled_error(arms)
    if df < 4 or error <= 0:
        return ""
    off = [
        (abs(weight - mean) / math.sqrt(error * (1 - 1 / arm.n)), weight, arm.name)
        for arm in arms
        if arm.n > 1 and (mean := arm.mean) is not None
        for weight in arm.weights
    ]
    farthest, grams, name = max(off, key=lambda each: each[0])
    rest = df - farthest**2
    outside = farthest * math.sqrt((df - 1) / rest) if rest > 0 else 0.0
    if 2 * special().stdtr(df - 1, -outside) * len(off) >= SIGNIFICANCE:
        return ""
    return (
        f"The tray of {grams_of(grams)} in {name} stands far from the others of its arm: check its "
        "entry before relying on this."
    )
