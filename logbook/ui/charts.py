"""Charts as text: the one module that knows plotext.

plotext keeps one figure for the whole process, so a chart is made whole in one call and the figure
is cleared before and after. It ends the process on a number that is not finite, so those are left
out first. Without plotext, which some small machines lack, a sentence stands where the chart would.
"""

import math
import os
import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from logbook.ui.chart_scale import Point, named_rows, row_scale, thinned

LEAST_WIDTH, LEAST_HEIGHT = 16, 5
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
    bottom, step = row_scale(min(values), max(values), rows, MOST_NAMED)
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
    names = named_rows(bottom, step, rows, MOST_NAMED)
    named = [bottom + step * row for row in names]
    upward.ticks(named, [_named(value, step * names.step) for value in named])
    text = str(figure.build().string())
    figure.clear()
    return "\n".join(line.rstrip() for line in _ESCAPES.sub("", text).splitlines())


def under_each_other(
    charts: Sequence[Callable[[int, int], str]], width: int, height: int
) -> tuple[str, int]:
    """Charts of one span, each drawn by its width and height, with their axes in one column.

    Together with it, the cells to the left of what is drawn.
    """
    high = height // len(charts)
    highs = [high] * (len(charts) - 1) + [height - high * (len(charts) - 1)]
    drawn = [one(width, high) for one, high in zip(charts, highs, strict=True)]
    most = max(map(_margin, drawn))
    aligned = []
    for one, text, high in zip(charts, drawn, highs, strict=True):
        by = most - _margin(text)
        again = one(width - by, high) if 0 < by < most else text
        aligned += [" " * by + line if again != text else line for line in again.splitlines()]
    return "\n".join(aligned), most


def _margin(chart: str) -> int:
    return max((max(map(line.find, "┤┼")) + 1 for line in chart.splitlines()), default=0)


def _named(value: float, step: float) -> str:
    digits = next((digits for digits in range(4) if round(step, digits) == round(step, 6)), 4)
    return f"{value:.{digits}f}" if abs(value) < 1e6 else f"{value:.3g}"


def bar(share: float, width: int) -> str:
    """Draw a share from 0 to 1 as a bar of so many cells."""
    return "█" * round(min(max(share, 0.0), 1.0) * width)
