"""Batches over time as bars, oldest first: grams per tray sown, with the mean and the usual limits."""

import math
from collections.abc import Sequence

from logbook.growing.measures import Units, grams_words
from logbook.growing.yields.crop_yields import BatchYield
from logbook.growing.yields.unusual import MOST, limits

FULL, LEAST_ROOM = "█", 10


def trend_rows(batches: Sequence[BatchYield], width: int, units: Units) -> list[str]:
    """A line for each batch whose grams are known, below a line that says what the bars begin at.

    A bar begins below the least of them, so that differences show; ! marks what is unusually low.
    """
    known = [(one, one.grams_per_tray_sown) for one in reversed(batches)][-MOST:]
    shown = [(one, grams) for one, grams in known if grams is not None]
    if len(shown) < 2:
        return []
    least, most = min(grams for _, grams in shown), max(grams for _, grams in shown)
    step = 10 ** math.floor(math.log10(max(most, 1.0)))
    base = max(0.0, math.floor((least - (most - least) / 4) / step * 4) * step / 4)
    names = max(len(one.name) for one, _ in shown)
    figures = max(len(grams_words(grams, units)) for _, grams in shown)
    room = min(40, width - names - figures - 5)
    if room < LEAST_ROOM:
        return []
    usual = limits([grams for _, grams in shown])
    mean = f", mean {grams_words(usual.mean, units)}" if usual else ""
    lines = [f"per tray sown over time; bars begin at {grams_words(base, units)}{mean}"]
    for one, grams in shown:
        long = round(room * (grams - base) / (most - base)) if most > base else room
        mark = " !" if one.unusual else ""
        lines.append(
            f"{one.name:{names}}  {grams_words(grams, units):>{figures}}  {FULL * max(1, long)}{mark}"
        )
    return lines
