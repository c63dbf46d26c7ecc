"""A trial's weights as a chart of plain text: one line for each arm, one dot for each tray."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.words import grams_of

DOTS = "·•●◆"
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
    """The lines of a chart, and its foot: the lightest and heaviest weight under their cells."""

    lines: tuple[ChartLine, ...]
    foot: str


def chart(arms: Sequence[Arm], width: int) -> Chart:
    """Draw every weighed tray as a dot on one scale of grams; arms without one have an empty line.

    `width` is the cells for the dots, LEAST_WIDTH at the least.
    """
    width = max(width, LEAST_WIDTH)
    weights = [weight for arm in arms for weight in arm.weights]
    if not weights:
        return Chart(tuple(ChartLine(arm.name, "", _figures(arm)) for arm in arms), "")
    low, high = min(weights), max(weights)

    def cell(weight: float) -> int:
        return round((weight - low) / (high - low) * (width - 1)) if high > low else width // 2

    lines = []
    for arm in arms:
        counts = Counter(map(cell, arm.weights))
        dots = [DOTS[min(counts[at], len(DOTS)) - 1] if counts[at] else " " for at in range(width)]
        if arm.mean is not None and arm.n > 1 and dots[cell(arm.mean)] == " ":
            dots[cell(arm.mean)] = "|"
        lines.append(ChartLine(arm.name, "".join(dots).rstrip(), _figures(arm)))
    left, right = grams_of(low), grams_of(high)
    if high == low:
        return Chart(tuple(lines), left.center(width).rstrip())
    return Chart(tuple(lines), left + right.rjust(width - len(left)))


def _figures(arm: Arm) -> str:
    """Say mean, spread and how many trays: "304 g ± 21, 6 trays"."""
    if arm.mean is None:
        return "no weight"
    spread = f" ± {grams_of(arm.sd).removesuffix(' g')}" if arm.sd is not None else ""
    return f"{grams_of(arm.mean)}{spread} ({arm.n})"
