"""Bars with their figures: batches over time, and crops or groups side by side."""

import math
from collections.abc import Sequence

from logbook.growing.measures import Units, grams_words
from logbook.growing.table import Cells, padded
from logbook.growing.yields.crop_yields import BatchYield, CropYield
from logbook.growing.yields.unusual import MOST, limits

FULL, LEAST_ROOM, MOST_ROOM = "█", 10, 60
Bar = tuple[str, float, str, str]
"""A name, how long it is, the figure as it is written, a mark behind it."""


def trend_rows(
    batches: Sequence[BatchYield], width: int, units: Units, cells: Cells = len
) -> list[str]:
    """A line for each batch whose grams are known, the oldest first, below a line that says what they mean.

    A bar begins below the least of them, so that differences show; ! marks what is unusually low.
    """
    known = [(one, one.grams_per_tray_sown) for one in reversed(batches)][-MOST:]
    shown = [(one, grams) for one, grams in known if grams is not None]
    if len(shown) < 2:
        return []
    least, most = min(grams for _, grams in shown), max(grams for _, grams in shown)
    step = 10 ** math.floor(math.log10(max(most, 1.0)))
    base = max(0.0, math.floor((least - (most - least) / 4) / step * 4) * step / 4)
    usual = limits([grams for _, grams in shown])
    mean = f", mean {grams_words(usual.mean, units)}" if usual else ""
    bars = [
        (one.name, grams, grams_words(grams, units), " !" if one.unusual else "")
        for one, grams in shown
    ]
    head = f"per tray sown over time; bars begin at {grams_words(base, units)}{mean}"
    return _bars(head, bars, base, width, cells)


def beside_rows(
    crops: Sequence[CropYield], width: int, units: Units, cells: Cells = len
) -> list[str]:
    """A line for each crop or group whose grams per slot-day are known, below a line that says so."""
    shown = [(one, one.grams_per_slot_day) for one in crops]
    bars = [
        (one.name, grams, grams_words(grams, units), "")
        for one, grams in shown
        if grams is not None
    ]
    return _bars("per slot-day side by side; bars begin at 0", bars, 0.0, width, cells)


def _bars(head: str, bars: Sequence[Bar], base: float, width: int, cells: Cells) -> list[str]:
    """Nothing for a single bar, or where there is no room."""
    if len(bars) < 2:
        return []
    names, figures = (max(cells(str(bar[at])) for bar in bars) for at in (0, 2))
    most = max(value for _, value, _, _ in bars)
    room = min(MOST_ROOM, width - names - figures - 6)
    if room < LEAST_ROOM:
        names = min(names, max(8, width - figures - 6 - LEAST_ROOM))
        room = min(LEAST_ROOM, width - names - figures - 6)
    if room < 1:
        return []
    lines = [head] if cells(head) <= width else head.split("; ")
    for name, value, figure, mark in bars:
        long = round(room * (value - base) / (most - base)) if most > base else room
        left = f"{padded(name, names, cells)}  {padded(figure, figures, cells, right=True)}"
        lines.append(f"{left}  {FULL * max(1, long)}{mark}")
    return lines
