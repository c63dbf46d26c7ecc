"""A trial's weights as a chart of plain text: one line for each arm, one dot for each tray."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.words import grams_of

DOTS = "•●◆█"
"""A tray alone, two, three, and four or more trays in one cell."""

LEAST_WIDTH = 10


@dataclass(frozen=True, slots=True)
class ChartLine:
    """An arm's line: its name, its dots with | at the mean, and its figures in words."""

    arm: str
    dots: str
    words: str


@dataclass(frozen=True, slots=True)
class Chart:
    """The lines of a chart, its axis, and its foot: round weights under their marks."""

    lines: tuple[ChartLine, ...]
    axis: str
    foot: str


def chart(arms: Sequence[Arm], width: int) -> Chart:
    """Draw every weighed tray as a dot on one scale of grams; arms without one have an empty line.

    A line joins what lies within one standard deviation of the mean. `width` is the cells for the
    dots, LEAST_WIDTH at the least.
    """
    width = max(width, LEAST_WIDTH)
    weights = [weight for arm in arms for weight in arm.weights]
    if not weights:
        return Chart(tuple(ChartLine(arm.name, "", _figures(arm)) for arm in arms), "", "")
    ticks = _ticks(min(weights), max(weights), max(2, width // 12))
    low, high = ticks[0], ticks[-1]

    def cell(weight: float) -> int:
        return round((weight - low) / (high - low) * (width - 1))

    lines = []
    for arm in arms:
        counts, drawn = Counter(map(cell, arm.weights)), [" "] * width
        if arm.mean is not None and arm.sd:
            ends = (cell(min(max(arm.mean + by, low), high)) for by in (-arm.sd, arm.sd))
            first, last = ends
            drawn[first : last + 1] = "─" * (last + 1 - first)
        for at, count in counts.items():
            drawn[at] = DOTS[min(count, len(DOTS)) - 1]
        if arm.mean is not None and arm.n > 1 and not counts[cell(arm.mean)]:
            drawn[cell(arm.mean)] = "|"
        lines.append(ChartLine(arm.name, "".join(drawn).rstrip(), _figures(arm)))
    axis, foot = ["─"] * width, ""
    for tick in ticks:
        at, words = cell(tick), grams_of(tick)
        axis[at] = "┬"
        begin = min(max(0, at - len(words) // 2), width - len(words))
        if not foot or begin > len(foot):
            foot = f"{foot:<{begin}}{words}"
    return Chart(tuple(lines), "".join(axis), foot)


def _ticks(low: float, high: float, most: int) -> list[float]:
    """At most so many round weights and two more, from under the lightest to over the heaviest."""
    spread = max(high - low, abs(high) * 0.01, 1e-6)
    power = 10.0 ** math.floor(math.log10(spread / most))
    step = next(power * size for size in (1, 2, 5, 10, 20) if power * size * most >= spread)
    first = math.floor(low / step)
    last = max(first + 1, math.ceil(high / step))
    return [at * step for at in range(first, last + 1)]


def _figures(arm: Arm) -> str:
    """Say mean, spread and how many trays: "304 g ± 21, 6 trays"."""
    if arm.mean is None:
        return "no weight"
    spread = f" ± {grams_of(arm.sd).removesuffix(' g')}" if arm.sd is not None else ""
    return f"{grams_of(arm.mean)}{spread} ({arm.n})"
