"""Reading seed: bags, counts and weights from standing entries, and what sowings drew."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.crops.seed_lots import drawn_of
from logbook.growing.seed.bags import Draw, SaidBag, SaidCount, SaidWeight
from logbook.store.reads.lots import batches_of_lots, read_lots
from logbook.store.reads.standing import STANDING_TRAY, STANDS, said_by, standing
from logbook.store.rows import Rows, grouped


def read_bags(reading: Rows) -> list[SaidBag]:
    """The bags of seed that were bought, the first bought first."""
    return standing(reading, SaidBag, "seed_bag", order="x.bought, e.id")


def read_bag_names(reading: Rows) -> list[str]:
    """The lots of which bags were bought, the newest first."""
    return list(dict.fromkeys(bag.lot for bag in reversed(read_bags(reading))))


def read_counts(reading: Rows) -> list[SaidCount]:
    """The counts of seedlings, oldest first."""
    return standing(reading, SaidCount, "seed_test")


def read_seed_weights(reading: Rows) -> list[SaidWeight]:
    """What was left of lots when they were weighed, oldest first."""
    return standing(reading, SaidWeight, "seed_weight")


def bags_of(reading: Rows, entries: Collection[int]) -> dict[int, SaidBag]:
    """The bags of entries, by entry id; of struck ones too. Likewise below."""
    return said_by(reading, SaidBag, "seed_bag", entries)


def counts_of(reading: Rows, entries: Collection[int]) -> dict[int, SaidCount]:
    """The counts of entries."""
    return said_by(reading, SaidCount, "seed_test", entries)


def seed_weights_of(reading: Rows, entries: Collection[int]) -> dict[int, SaidWeight]:
    """What entries weighed of lots."""
    return said_by(reading, SaidWeight, "seed_weight", entries)


@dataclass(frozen=True, slots=True)
class _Taken:
    batch_id: int
    at: datetime | None
    trays: int
    grams: float | None
    crop: str


def read_draws(reading: Rows, spellings: Collection[str]) -> dict[str, list[Draw]]:
    """What sowings drew from lots, by the spelling of each, oldest first.

    A tray's seed is drawn when it is first soaked or sown. A batch's grams of a lot are those of all
    its trays; of lots without grams each gives an even part of the rest.
    """
    wanted = set(spellings)
    batches = batches_of_lots(reading, wanted)
    begun = (
        "(SELECT e.at FROM entry_tray et CROSS JOIN entry e WHERE et.tray_id = t.id "
        f"AND e.id = et.entry_id AND e.kind IN ('sow', 'soak') AND {STANDS} "
        "ORDER BY et.entry_id LIMIT 1)"
    )
    taken = reading.make_of(
        _Taken,
        f"SELECT t.batch_id, {begun} AS at, count(*) AS trays, "
        "coalesce(b.grams_per_tray, v.seed_grams) AS grams, "
        "CASE v.variety WHEN '' THEN v.crop ELSE v.crop || ', ' || v.variety END AS crop "
        "FROM tray t JOIN batch b ON b.id = t.batch_id JOIN template_version v ON v.id = b.version_id "
        f"WHERE {STANDING_TRAY} AND t.batch_id IN (ids) "
        "GROUP BY t.batch_id, at, b.id, v.id",
        batches,
    )
    lots, of = read_lots(reading, batches), grouped((each.batch_id, each) for each in taken)
    draws = []
    for batch, parts in of.items():
        every = sum(part.trays for part in parts)
        per_tray = parts[0].grams
        whole = None if per_tray is None else per_tray * every
        for lot, grams in zip(lots[batch], drawn_of(lots[batch], whole), strict=True):
            draws += [
                (lot.lot, Draw(batch, part.at, part.trays,
                               None if grams is None else grams * part.trays / every, part.crop))
                for part in parts
                if part.at is not None and lot.lot in wanted
            ]  # fmt: skip
    draws.sort(key=lambda each: (each[1].at, each[1].batch_id))
    return grouped(draws)
