"""Reading what is traced: from seed lots, batches, trays and cuts onward and back, by their ids."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from logbook.growing.crops.seed_lots import shares_of
from logbook.growing.trays.tray_now import StoredTray
from logbook.store.reads.lots import read_lots
from logbook.store.reads.standing import STANDING_TRAY, STANDS
from logbook.store.reads.trays import read_trays_where
from logbook.store.rows import Rows


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut of a tray: its weight and the pack lot (id) that it went into.

    A tray that was sold live is cut by its sale, with no weight. A weight that was struck and that a
    lot was begun with weighs 0 g, for the lot may have gone out.
    """

    entry: int
    tray: int
    grams: float
    at: datetime
    by: str
    lot: int | None
    stands: bool

    @property
    def id(self) -> tuple[int, int]:
        """What it is told apart by: trays that were weighed together share an entry."""
        return self.entry, self.tray


def trays_of_batches(reading: Rows, batches: Collection[int]) -> list[StoredTray]:
    """The trays of batches, but for those whose sowing was struck."""
    return read_trays_where(reading, f"t.batch_id IN (ids) AND {STANDING_TRAY}", batches)


_CUT = f"""
SELECT w.entry_id AS entry, w.tray_id AS tray, CASE WHEN {STANDS} THEN w.grams ELSE 0.0 END AS grams, e.at, e."by",
       w.lot_id AS lot, {STANDS} AS stands
"""
_SOLD = f"""
SELECT e.id AS entry, et.tray_id AS tray, 0.0 AS grams, e.at, e."by", e.id AS lot, {STANDS} AS stands
FROM entry_tray et CROSS JOIN entry e WHERE e.id = et.entry_id AND e.kind = 'sold_live'
"""


def cuts_of(reading: Rows, trays: Collection[int]) -> list[Cut]:
    """What was cut of trays and weighed, and which were sold live."""
    weighed = (
        f"{_CUT} FROM entry_tray et CROSS JOIN weight w CROSS JOIN entry e "
        "WHERE w.entry_id = et.entry_id AND w.tray_id = et.tray_id AND e.id = w.entry_id "
        f"AND ({STANDS} OR w.lot_id IS NOT NULL) AND et.tray_id IN (ids) ORDER BY w.entry_id, w.tray_id"
    )
    return [
        *reading.make_of(Cut, weighed, trays),
        *reading.make_of(Cut, f"{_SOLD} AND et.tray_id IN (ids)", trays),
    ]


def cuts_into(reading: Rows, lots: Collection[int]) -> list[Cut]:
    """The cuts that went into pack lots."""
    weighed = (
        f"{_CUT} FROM weight w CROSS JOIN entry e WHERE e.id = w.entry_id AND w.lot_id IN (ids) "
        "ORDER BY w.entry_id, w.tray_id"
    )
    return [
        *reading.make_of(Cut, weighed, lots),
        *reading.make_of(Cut, f"{_SOLD} AND e.id IN (ids)", lots),
    ]


@dataclass(frozen=True, slots=True)
class Unlotted:
    """Packs of a customer's delivery of which no lot is written; their g by their size, None for live trays."""

    entry: int
    customer: int
    day: date
    packs: int
    grams: float | None


def packed_on(
    reading: Rows, customer: int, day: date | None
) -> tuple[date | None, list[tuple[int, int]], list[Unlotted]]:
    """A customer's delivery of a day, else the newest: the day, entries with lots (ids), what has none."""
    newest = (
        "SELECT max(x.day) FROM packed x CROSS JOIN entry e ON e.id = x.entry_id "
        f"WHERE x.customer_id = ? AND {STANDS}"
    )
    on = day.isoformat() if day else reading.value(newest, (customer,))
    rows = reading.rows(
        "SELECT x.entry_id, l.lot_id, x.packs, x.packs * x.pack_grams FROM packed x CROSS JOIN entry e "
        "ON e.id = x.entry_id LEFT JOIN packed_lot l ON l.entry_id = x.entry_id "
        f"WHERE x.day = ? AND x.customer_id = ? AND {STANDS} ORDER BY e.id",
        (on, customer),
    )
    if not rows:
        return None, [], []
    found = date.fromisoformat(on)
    return (
        found,
        [(entry, lot) for entry, lot, *_ in rows if lot is not None],
        [Unlotted(entry, customer, found, *more) for entry, lot, *more in rows if lot is None],
    )


def seed_shares(reading: Rows, batches: Collection[int]) -> dict[int, list[tuple[str, float]]]:
    """The seed lots of batches with the share of each in its batch, by batch id."""
    lots = read_lots(reading, batches)
    mixed = [batch for batch, several in lots.items() if len(several) > 1]
    seed: dict[int, float | None] = dict(
        reading.rows_of(
            "SELECT b.id, coalesce(b.grams_per_tray, v.seed_grams) * count(*) FROM batch b "
            "JOIN template_version v ON v.id = b.version_id JOIN tray t ON t.batch_id = b.id "
            f"WHERE {STANDING_TRAY} AND b.id IN (ids) GROUP BY b.id, v.id",
            mixed,
        )
    )
    return {
        batch: list(
            zip([lot.lot for lot in several], shares_of(several, seed.get(batch)), strict=True)
        )
        for batch, several in lots.items()
    }
