"""The seed that is needed by what is planned already and by what a plan adds to it."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.days import day_of
from logbook.growing.planning.seed_need import SeedNeed, seed_need
from logbook.growing.trays.tray_now import TrayNow


def planned_trays(reading: Reading) -> Iterator[tuple[TrayNow, date]]:
    """The trays whose seed is still in its bag, and the day on which it is soaked or sown dry."""
    for tray in reading.live:
        if tray.status == "planned" and tray.state.soaked_at is None:
            at = tray.state.planned_for or reading.now
            begins = at - timedelta(seconds=tray.template.soak_seconds)
            yield tray, max(day_of(begins, reading.zone), reading.today)


def seed_needs(
    reading: Reading, sowings: Iterable[tuple[str, date, float]] = (), until: date = date.max
) -> list[SeedNeed]:
    """What planned trays need of each crop's seed before a day, and sowings (crop, day, g) with them.

    Of treated seed none is there to be sown.
    """
    needs: dict[str, list[tuple[date, float]]] = {}
    for crop, day, grams in sowings:
        needs.setdefault(crop, []).append((day, grams))
    for tray, day in planned_trays(reading):
        needs.setdefault(tray.crop, []).append((day, tray.seed_grams or 0.0))
    found = []
    stock = [each for each in lots_in_stock(reading) if not each.treated] if needs else []
    for crop in sorted(needs):
        lots = [each for each in stock if each.bags and each.is_of(crop)]
        left = [max(0.0, each.left_grams) for each in lots if each.left_grams is not None]
        wanted = [each for each in needs[crop] if each[0] < until]
        found.append(seed_need(crop, wanted, sum(left) if left else None))
    return found
