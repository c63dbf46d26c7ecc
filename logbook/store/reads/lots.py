"""Reading seed lots, by the batches that were sown from them."""

from collections.abc import Callable, Collection, Iterable
from datetime import datetime

from logbook.growing.crops.seed_lots import SeedLot
from logbook.store.reads.standing import STANDING_TRAY
from logbook.store.rows import LARGEST_ID, Rows, grouped, stored

BATCHES_A_LOT = 100
_SOWN = f"EXISTS (SELECT 1 FROM tray t WHERE t.batch_id = l.batch_id AND {STANDING_TRAY})"
_STANDING_LOT = f"SELECT l.lot, max(l.batch_id) FROM batch_lot l WHERE {_SOWN}"


def read_recent_lots(reading: Rows, most: int) -> list[str]:
    """The seed lots of the newest batches, each once, without struck sowings; older ones aren't looked at."""
    rows = reading.rows(
        f"SELECT lot FROM (SELECT batch_id, lot FROM batch_lot l WHERE {_SOWN} ORDER BY batch_id "
        "DESC, position DESC LIMIT ?) newest GROUP BY lot ORDER BY max(batch_id) DESC LIMIT ?",
        (most * BATCHES_A_LOT, most),
    )
    return [lot for (lot,) in rows]


def read_lot_names(reading: Rows) -> list[str]:
    """Every spelling of a seed lot, the newest first; none of sowings that were struck."""
    rows = reading.rows(f"{_STANDING_LOT} GROUP BY l.lot ORDER BY max(l.batch_id) DESC")
    return [lot for lot, _ in rows]


def spellings(reading: Rows, like: Callable[[str], bool]) -> list[str]:
    """As read_lot_names(), of those that a test takes."""
    names = [lot for (lot,) in reading.rows("SELECT DISTINCT lot FROM batch_lot") if like(lot)]
    rows = reading.rows_of(f"{_STANDING_LOT} AND l.lot IN (ids) GROUP BY l.lot", names)
    return [lot for lot, _ in sorted(rows, key=lambda row: -int(row[1]))]


def batches_of_lots(reading: Rows, lots: Collection[str]) -> list[int]:
    """The batches that name a seed lot, spelled exactly so."""
    rows = reading.rows_of("SELECT batch_id FROM batch_lot WHERE lot IN (ids)", lots)
    return sorted({batch for (batch,) in rows})


def newest_batches(reading: Rows) -> dict[str, int]:
    """The newest batch (id) that names each spelling of a seed lot, also where it was struck."""
    return dict(reading.rows("SELECT lot, max(batch_id) FROM batch_lot GROUP BY lot"))


def first_batch_since(reading: Rows, at: datetime) -> int:
    """The first batch with trays that live, or lived at a moment; past all batches where none has."""
    sql = "SELECT min(batch_id) FROM tray WHERE live = 1 OR ended_at >= ?"
    found = reading.value(sql, (stored(at),))
    return LARGEST_ID if found is None else int(found)


def read_lots(
    reading: Rows, batches: Collection[int] | None = None
) -> dict[int, tuple[SeedLot, ...]]:
    """The seed lots of batches, or of all that name one, by batch id, oldest first."""
    sql, order = "SELECT batch_id, lot, grams FROM batch_lot", "ORDER BY batch_id, position"
    rows: Iterable[tuple[int, str, float | None]] = (
        reading.rows(f"{sql} {order}")
        if batches is None
        else reading.rows_of(f"{sql} WHERE batch_id IN (ids) {order}", batches)
    )
    lots = grouped((batch, SeedLot(lot, grams)) for batch, lot, grams in rows)
    return {batch: tuple(each) for batch, each in lots.items()}
