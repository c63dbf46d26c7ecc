"""When seed runs out at the pace of its use, where no planned sowing says so."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from logbook.growing.planning.seed_need import SeedNeed
from logbook.growing.seed.bags import LotStock, is_of
from logbook.text import fold

PACE_WEEKS = 8
"""The pace is that of so many weeks, or of those since the crop's first sowing where they are fewer."""
_FAR = timedelta(days=366)
_WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class SeedPace:
    """How fast a crop's seed is used, and until when it lasts so."""

    crop: str
    grams_per_week: float
    """Dry seed sown a week, of the weeks past."""
    have_grams: float
    runs_out: date | None
    """When it is used up at that pace, after planned sowings; null where that is over a year away."""

    def buy_by(self, lead_days: int) -> date | None:
        """The last day to order a bag that takes so long to come; null where it doesn't run out."""
        return self.runs_out and self.runs_out - timedelta(days=lead_days)


def seed_paces(
    lots: Sequence[LotStock], needs: Iterable[SeedNeed], now: datetime, today: date, until: date
) -> list[SeedPace]:
    """The crops sown of late whose planned sowings (until a day) don't use their seed up, by name.

    Left out is a crop of which what is left, or what a sowing drew, is not known.
    """
    planned, found = list(needs), []
    crops = {fold(lot.crop): lot.crop for lot in lots if lot.bags and not lot.treated}
    for key, crop in sorted(crops.items()):
        own = [lot for lot in lots if fold(lot.crop) == key and not lot.treated]
        draws = [draw for lot in own for draw in lot.draws]
        late = [draw.grams for draw in draws if draw.at > now - PACE_WEEKS * _WEEK]
        left = [max(0.0, lot.left_grams) for lot in own if lot.left_grams is not None]
        needed = [each for each in planned if is_of(crop, each.crop)]
        if not late or None in late or not left or any(each.runs_out for each in needed):
            continue
        weeks = (now - min(draw.at for draw in draws)) / _WEEK
        per_week = sum(grams or 0.0 for grams in late) / min(PACE_WEEKS, max(1.0, weeks))
        rest = max(0.0, sum(left) - sum(each.need_grams for each in needed))
        if per_week <= 0:
            continue
        lasts = timedelta(days=min(7 * rest / per_week, 2.0 * _FAR.days))
        begins = until if needed else today
        runs_out = begins + timedelta(days=lasts.days) if lasts <= _FAR else None
        found.append(SeedPace(crop, round(per_week, 1), round(sum(left), 1), runs_out))
    return found
