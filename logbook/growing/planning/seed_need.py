"""The seed that sowings to come need, against what is left."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class SeedNeed:
    """Dry seed of a crop that planned sowings need and what is left in its bags, g."""

    crop: str
    need_grams: float
    have_grams: float | None
    """Null where no bag of it is known."""
    runs_out: date | None
    """The day of the sowing that it isn't enough for; null where it is enough or not known."""


def seed_need(crop: str, sowings: Iterable[tuple[date, float]], have: float | None) -> SeedNeed:
    """What sowings (day, g) of a crop need."""
    need, runs_out = 0.0, None
    for day, grams in sorted(sowings):
        need += grams
        if runs_out is None and have is not None and need > have:
            runs_out = day
    return SeedNeed(crop, round(need, 1), have, runs_out)
