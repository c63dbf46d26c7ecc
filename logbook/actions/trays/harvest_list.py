"""What was cut, day by day, as an import of past harvests takes it."""

from collections import Counter, defaultdict
from dataclasses import dataclass
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.trays.harvests import Harvest
from logbook.growing.days import day_of
from logbook.store.reads.trays import read_trays
from logbook.store.rows import chunks


@dataclass(frozen=True, slots=True)
class HarvestList:
    """Harvests as a flat list, and the file that it was written to."""

    path: Path | None
    harvests: tuple[Harvest, ...]


def list_harvests(book: Book) -> list[Harvest]:
    """The first harvests that are whole and weighed, by day, crop and seed lot, the oldest first.

    Regrowth and what was cut unweighed are left out: an import takes every line for a first harvest.
    """
    counts: Counter[tuple[str, str, str, str]] = Counter()
    sums: defaultdict[tuple[str, str, str, str], float] = defaultdict(float)
    days = {}
    with book.reading() as reading:
        cut = reading.rows("SELECT id FROM tray WHERE cut_grams IS NOT NULL")
        for ids in chunks(tray for (tray,) in cut):
            for tray in reading.folded(read_trays(reading, ids)):
                first = next(iter(tray.state.harvests), None)
                if (
                    first is None
                    or not (first.done and first.weighed)
                    or tray.state.sown_at is None
                ):
                    continue
                zone = tray.hours.zone
                sown, at = day_of(tray.state.sown_at, zone), day_of(first.at, zone)
                key = (at.isoformat(), tray.template.name, sown.isoformat(), tray.stored.lot)
                counts[key] += 1
                sums[key] += first.grams
                days[key] = sown, at
    return [
        Harvest(line, key[1], *days[key], counts[key], round(sums[key], 1), key[3])
        for line, key in enumerate(sorted(counts), 2)
    ]
