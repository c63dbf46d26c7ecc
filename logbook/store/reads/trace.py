"""Reading what is traced: from seed lots, batches, trays and cuts onward and back, by their ids."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.crops.seed_lots import shares_of
from logbook.growing.trays.tray_now import StoredTray
from logbook.store.reads.lots import read_lots
from logbook.store.reads.standing import STANDING_TRAY, STANDS
from logbook.store.reads.trays import read_trays_where
from logbook.store.rows import Rows


@dataclass(frozen=True, slots=True)
class Cut:
    """A standing weight of a tray."""

    entry: int
    tray: int
    grams: float
    at: datetime
    by: str

    @property
    def id(self) -> tuple[int, int]:
        """What it is told apart by: trays that were weighed together share an entry."""
        return self.entry, self.tray


def batches_of_lots(reading: Rows, lots: Collection[str]) -> list[int]:
    """The batches that name a seed lot, spelled exactly so."""
    wanted = set(lots)
    rows = reading.rows("SELECT batch_id, lot FROM batch_lot ORDER BY batch_id")
    return list(dict.fromkeys(batch for batch, lot in rows if lot in wanted))


def trays_of_batches(reading: Rows, batches: Collection[int]) -> list[StoredTray]:
    """The trays of batches, but for those whose sowing was struck."""
    return read_trays_where(reading, f"t.batch_id IN (ids) AND {STANDING_TRAY}", batches)


def cuts_of(reading: Rows, trays: Collection[int]) -> list[Cut]:
    """What was cut of trays and weighed, in the order in which it was written."""
    return reading.make_of(
        Cut,
        'SELECT w.entry_id AS entry, w.tray_id AS tray, w.grams, e.at, e."by" FROM entry_tray et '
        "CROSS JOIN weight w CROSS JOIN entry e WHERE w.entry_id = et.entry_id "
        f"AND w.tray_id = et.tray_id AND e.id = w.entry_id AND {STANDS} AND et.tray_id IN (ids) "
        "ORDER BY e.id, w.tray_id",
        trays,
    )


def seed_shares(reading: Rows, batches: Collection[int]) -> dict[int, list[tuple[str, float]]]:
    """The seed lots of batches with the share of each in its batch, by batch id."""
    lots = read_lots(reading, batches)
    mixed = [batch for batch, several in lots.items() if len(several) > 1]
    seed: dict[int, float | None] = dict(
        reading.rows_of(
            "SELECT b.id, coalesce(b.grams_per_tray, v.seed_grams) * count(*) FROM batch b "
            "JOIN template_version v ON v.id = b.version_id JOIN tray t ON t.batch_id = b.id "
            f"WHERE {STANDING_TRAY} AND b.id IN (ids) GROUP BY b.id",
            mixed,
        )
    )
    return {
        batch: list(
            zip([lot.lot for lot in several], shares_of(several, seed.get(batch)), strict=True)
        )
        for batch, several in lots.items()
    }
