"""What a chart shows of its points: a scale for its rows, and no more of them than cells."""

import math
from collections.abc import Sequence
from itertools import groupby

Point = tuple[float, float]
STEPS = (1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
"""By how much a row may stand for more than the one below it, times a power of ten."""
ROUND = (1, 2, 2.5, 3, 4, 5)
"""What values beside a scale go up by, times a power of ten."""


def row_scale(bottom: float, top: float, rows: int, most: int) -> tuple[float, float]:
    """The lowest row's value and the step between so many rows, of which at most some are named, roundly."""
    spread = max(top - bottom, 1.0, abs(bottom) * 1e-6, abs(top) * 1e-6)
    power = 10.0 ** math.floor(math.log10(spread / (rows - 1)))
    for step in (size * power * ten for ten in (1, 10) for size in STEPS):
        lowest = math.floor(bottom / step)
        spare = rows - 1 - (math.ceil(top / step) - lowest)
        if spare >= 0 and step * (rows - 1) >= spread:
            down = spare // 2 if bottom < 0 else min(spare // 2, lowest)
            if round_stride((lowest - down) * step, step, rows, most):
                return (lowest - down) * step, step
    raise AssertionError("a step of ten times the spread holds it")


def round_stride(bottom: float, step: float, rows: int, most: int) -> int:
    """How many rows on the next one is named, at most so many in all; 0 where two can't have round values."""
    for stride in range(math.ceil(rows / most), rows):
        by = step * stride
        size = by / 10.0 ** math.floor(math.log10(by) + 1e-9)
        first = round(-bottom / step) % stride
        if any(math.isclose(size, each) for each in ROUND) and first + stride < rows:
            return stride
    return 0


def named_rows(bottom: float, step: float, rows: int, most: int) -> range:
    """Which rows to name: at most so many, of round values; the lowest is 0."""
    stride = round_stride(bottom, step, rows, most)
    return range(round(-bottom / step) % stride, rows, stride)


def thinned(points: Sequence[Point], span: Point, most: int) -> list[Point]:
    """At most `most` points: the means of equal pieces of the span, in order."""
    if len(points) <= most:
        return list(points)
    low, high = span

    def piece(point: Point) -> int:
        return min(int((point[0] - low) / (high - low) * most), most - 1)

    groups = [list(some) for _, some in groupby(points, piece)]
    return [(sum(x for x, _ in g) / len(g), sum(y for _, y in g) / len(g)) for g in groups]
