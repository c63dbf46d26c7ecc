"""Batches that gave less than is usual: an individuals chart on their grams per tray sown.

The limit lies 3 sigma below the mean of the batches before, sigma being the mean moving range by
1.128 (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 "Individuals Control Charts").
With MOST batches before, of a room in which nothing goes wrong, about 1 in 200 is called low;
with LEAST about 1 in 65 (`python -m tests.bench.unusual`).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import fmean

from logbook.growing.measures import Units, grams_words
from logbook.growing.yields.crop_yields import BatchYield

LEAST, MOST = 8, 24
"""So many batches before are needed; of more the newest are taken."""
D2 = 1.128
"""The mean range of two values of a normal distribution, by its sigma."""


@dataclass(frozen=True, slots=True)
class Limits:
    """The mean of single values and 3 sigma to either side of it, in their unit."""

    low: float
    mean: float
    high: float


def limits(values: Sequence[float]) -> Limits | None:
    """The limits that values set, two or more, in their order; None for fewer."""
    if len(values) < 2:
        return None
    mean = fmean(values)
    within = 3 * fmean(abs(one - other) for one, other in pairwise(values)) / D2
    return Limits(mean - within, mean, mean + within)


def with_unusual(batches: Sequence[BatchYield], units: Units) -> list[BatchYield]:
    """Batches, the newest first, with what is unusual about each; those of a crop are compared."""
    before: dict[str, list[float]] = {}
    found = []
    for one in reversed(batches):
        earlier = before.setdefault(one.crop, [])
        grams = one.grams_per_tray_sown
        if grams is not None:
            words = unusual_words(grams, earlier, units)
            lost = f"; lost {one.lost_words}" if words and one.lost else ""
            found.append(replace(one, unusual=words + lost))
            earlier.append(grams)
        else:
            found.append(one)
    return found[::-1]


def unusual_words(grams: float, before: Sequence[float], units: Units) -> str:
    """Say that g per tray sown is below the limit of the batches before, oldest first; else ''."""
    newest = before[-MOST:]
    found = limits(newest) if len(newest) >= LEAST else None
    if found is None or grams >= found.low:
        return ""
    mean, low = (grams_words(max(0.0, each), units) for each in (found.mean, found.low))
    return f"below what is usual: {grams_words(grams, units)} per tray; usual is {mean}, seldom less than {low}"
