"""Reading all batches, a line each."""

from dataclasses import dataclass
from datetime import datetime

from logbook.growing.keys import BatchNumber
from logbook.store.reads.standing import STANDING_TRAY, STANDS
from logbook.store.reads.trays import LOTS
from logbook.store.rows import Rows


@dataclass(frozen=True, slots=True)
class BatchLine:
    """A batch in a list."""

    batch: BatchNumber
    template: str
    version: int
    lot: str
    """Seed lot, several joined by +; empty when none was given."""
    sown_at: datetime | None
    planned_for: datetime | None
    trays: int
    in_use: int
    """Trays that are planned or growing."""
    cut_grams: float
    """All that was cut of it so far, g."""


def read_batch_lines(reading: Rows, *, every: bool = False) -> list[BatchLine]:
    """The batches with trays in use, or every one, the newest first; none whose sowing was struck."""
    sql = f"""
    SELECT b.id AS batch, c.name AS template, v.number AS version, {LOTS} AS lot,
      (SELECT min(e.at) FROM entry e WHERE e.batch_id = b.id AND e.kind = 'sow' AND {STANDS}) AS sown_at,
      b.planned_for, count(*) AS trays, sum(t.live) AS in_use,
      coalesce(sum(t.cut_grams), 0.0) AS cut_grams
    FROM batch b JOIN tray t ON t.batch_id = b.id
    JOIN template_version v ON v.id = b.version_id JOIN template c ON c.id = v.template_id
    WHERE {STANDING_TRAY}
      AND (? = 1 OR b.id IN (SELECT batch_id FROM tray WHERE live = 1))
    GROUP BY b.id, v.id, c.id ORDER BY b.id DESC
    """
    return reading.make(BatchLine, sql, (every,))
