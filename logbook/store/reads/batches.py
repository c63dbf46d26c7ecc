"""Reading batches: their seed lots, their sowings, and the cuts of the past."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.kinds import that_carry
from logbook.growing.numbers import PAST
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, moment, quoted


@dataclass(frozen=True, slots=True)
class PastCut:
    """A cut of a batch whose trays are of the past: sown, cut, trays, g in all."""

    batch_id: int
    template_id: int
    sown_at: datetime
    cut_at: datetime
    trays: int
    grams: float


def read_past_cuts(reading: Rows) -> list[PastCut]:
    """The standing cuts of trays that were cut before the book began."""
    return reading.make(
        PastCut,
        "SELECT b.id AS batch_id, v.template_id, s.at AS sown_at, e.at AS cut_at, "
        "count(*) AS trays, sum(w.grams) AS grams FROM entry e "
        "JOIN weight w ON w.entry_id = e.id JOIN tray t ON t.id = w.tray_id "
        "JOIN batch b ON b.id = t.batch_id JOIN template_version v ON v.id = b.version_id "
        "JOIN entry s ON s.batch_id = b.id AND s.kind = 'sow' "
        f"WHERE t.number >= ? AND {STANDS} GROUP BY e.id, s.id, b.id, v.id ORDER BY e.id",
        (PAST,),
    )


def read_sown_batches(reading: Rows, trays: Collection[int]) -> dict[int, tuple[int, int]]:
    """The batch and template version that the newest standing sowing or plan puts trays in."""
    rows = reading.rows_of(
        "SELECT et.tray_id, b.id, b.version_id FROM entry_tray et "
        "JOIN entry e ON e.id = et.entry_id JOIN batch b ON b.id = e.batch_id "
        f"WHERE et.tray_id IN (ids) AND e.kind IN ({quoted(that_carry('lot'))}) AND {STANDS} "
        "ORDER BY e.id",
        trays,
    )
    return {tray: (batch, version) for tray, batch, version in rows}


def batches_instead(reading: Rows, batch_id: int) -> list[str]:
    """The names of the batches that hold the trays of a batch whose sowing was corrected."""
    rows = reading.rows(
        "SELECT DISTINCT t.batch_id FROM entry e JOIN entry_tray et ON et.entry_id = e.id "
        "JOIN tray t ON t.id = et.tray_id WHERE e.batch_id = ? ORDER BY t.batch_id",
        (batch_id,),
    )
    return [str(batch) for (batch,) in rows]


def next_batch(reading: Rows) -> int:
    """The number that the next batch will get."""
    return 1 + int(reading.value("SELECT coalesce(max(id), 0) FROM batch"))


def batches_cut_last(reading: Rows, most: int) -> list[int]:
    """The batches whose trays were cut last, the newest first."""
    rows = reading.rows(
        "SELECT batch_id, max(ended_at) AS last FROM tray WHERE cut_grams IS NOT NULL "
        "AND ended_at IS NOT NULL GROUP BY batch_id ORDER BY last DESC, batch_id DESC LIMIT ?",
        (most,),
    )
    return [batch for batch, _ in rows]


def batches_gone(reading: Rows, batches: Collection[int]) -> set[int]:
    """Those of some batches of which no tray is on the rack any more."""
    rows = reading.rows_of(
        "SELECT batch_id FROM tray WHERE batch_id IN (ids) GROUP BY batch_id HAVING max(live) = 0",
        batches,
    )
    return {batch for (batch,) in rows}


def first_sowings(reading: Rows, batches: Collection[int]) -> list[datetime]:
    """When each of these batches was first sown; those that are not give nothing."""
    rows = reading.rows_of(
        "SELECT min(e.at) FROM entry e JOIN entry_tray et ON et.entry_id = e.id "
        "JOIN tray t ON t.id = et.tray_id "
        f"WHERE e.kind = 'sow' AND {STANDS} AND t.batch_id IN (ids) GROUP BY t.batch_id",
        batches,
    )
    return [moment(at) for (at,) in rows]
