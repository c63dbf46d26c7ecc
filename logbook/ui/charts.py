"""Charts as text: the one module that knows plotext.

plotext keeps one figure for the whole process, so a chart is made whole in one call and the figure
is cleared before and after. It ends the process on a number that is not finite, so those are left
out first. Without plotext, which some small machines lack, a sentence stands where the chart would.
"""

from __future__ import annotations

import math
import os
import re
from collections.abc import Sequence
from itertools import groupby, pairwise

Point = tuple[float, float]

LEAST_WIDTH, LEAST_HEIGHT = 16, 5
STEPS = (1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
"""By how much a row may stand for more than the one below it, times a power of ten."""
MOST_NAMED = 5
"""How many rows are named at most."""
_ESCAPES = re.compile(r"\x1b\[[0-9;]*m")


def line_chart(
    points: Sequence[Point], width: int, height: int, *, span: Point,
    ticks: Sequence[tuple[float, str]] = (), levels: Sequence[float] = (), gap: float = math.inf,
) -> str:  # fmt: skip
    """Draw y over x as plain text of `width` × `height` cells, no escape codes in it.

    `span` is the first and last x shown, `ticks` the marks on it, `levels` dotted lines at some y.
    The line is broken where two points lie more than `gap` apart. Points that are not finite or
    outside the span are left out; '' when none is left or there is no room.
    """
    low, high = span
    kept = sorted(
        (x, y) for x, y in points if math.isfinite(x) and math.isfinite(y) and low <= x <= high
    )
    if not kept or width < LEAST_WIDTH or height < LEAST_HEIGHT or not low < high:
        return ""
    try:
        import plotext
    except ImportError:
        return "The chart needs plotext, which isn't installed here; the numbers are above."
    shown = thinned(kept, span, width * 2)
    values = [y for _, y in shown] + [level for level in levels if math.isfinite(level)]
    marks = [(at, words) for at, words in ticks if low <= at <= high]
    rows = height - (2 if marks else 1)
    bottom, step = row_scale(min(values), max(values), rows)
    plotext.terminal.limit(False, False)
    figure = plotext.figure
    figure.clear()
    figure.theme("colorless")
    figure.plot_size(width, height)
    marker = "*" if os.environ.get("TERM", "") == "linux" else "braille"
    signal = figure.signal([x for x, _ in shown], [y for _, y in shown], marker=marker)
    signal.lines(True)
    for place, (one, two) in enumerate(pairwise(shown), 1):
        if two[0] - one[0] > gap:
            signal.line(place, False)
    for level in levels:
        if math.isfinite(level):
            figure.line(level, "horizontal", style="dotted")
    figure.draw(signal)
    figure.axes(False, side=1)
    across = figure.ruler("x")
    across.lim(low, high)
    across.ticks([at for at, _ in marks], [words for _, words in marks])
    upward = figure.ruler("y")
    upward.lim(bottom, bottom + step * (rows - 1))
    named = [bottom + step * row for row in range(0, rows, math.ceil(rows / MOST_NAMED))]
    upward.ticks(named, [_named(value, step) for value in named])
    text = str(figure.build().string())
    figure.clear()
    return "\n".join(line.rstrip() for line in _ESCAPES.sub("", text).splitlines())


def row_scale(bottom: float, top: float, rows: int) -> tuple[float, float]:
    """The lowest row's value and the step between so many rows: short numbers, to name rows by."""
    spread = max(top - bottom, 1.0, abs(bottom) * 1e-6, abs(top) * 1e-6)
    power = 10.0 ** math.floor(math.log10(spread / (rows - 1)))
    for step in (size * power * ten for ten in (1, 10) for size in STEPS):
        lowest = math.floor(bottom / step)
        spare = rows - 1 - (math.ceil(top / step) - lowest)
        if spare >= 0 and step * (rows - 1) >= spread:
            down = spare // 2 if bottom < 0 else min(spare // 2, lowest)
            return (lowest - down) * step, step
    raise AssertionError("a step of ten times the spread holds it")


def _named(value: float, step: float) -> str:
    digits = next((digits for digits in range(4) if round(step, digits) == round(step, 6)), 4)
    return f"{value:.{digits}f}" if abs(value) < 1e6 else f"{value:.3g}"


def thinned(points: Sequence[Point], span: Point, most: int) -> list[Point]:
    """At most `most` points: the means of equal pieces of the span, in order."""
    if len(points) <= most:
        return list(points)
    low, high = span

    def piece(point: Point) -> int:
        return min(int((point[0] - low) / (high - low) * most), most - 1)

    groups = [list(some) for _, some in groupby(points, piece)]
    return [(sum(x for x, _ in g) / len(g), sum(y for _, y in g) / len(g)) for g in groups]


def bar(share: float, width: int) -> str:
    """Draw a share from 0 to 1 as a bar of so many cells."""
    return "█" * round(min(max(share, 0.0), 1.0) * width)
