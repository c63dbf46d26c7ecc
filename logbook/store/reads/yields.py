"""Reading the trays that have left the rack."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.store.reads.standing import LAST_PLACE, STANDS, WEIGHED_TOGETHER
from logbook.store.reads.trays import LOTS
from logbook.store.rows import Rows, moment, stored


@dataclass(frozen=True, slots=True)
class Gone:
    """A tray that was cut or discarded, as its row sums it up."""

    id: int
    batch_id: int
    version_id: int
    ended_at: datetime
    cut_grams: float | None
    grams_per_tray: float | None
    lot: str
    shared: bool
    several: bool
    """Whether it was cut more than once."""
    place_id: int | None


def read_gone(
    reading: Rows, start: datetime, end: datetime, template: int | None = None
) -> list[Gone]:
    """The trays that left the rack from start until before end, of one template or of all."""
    only = "" if template is None else "AND v.template_id = :template"
    return reading.make(
        Gone,
        f"SELECT t.id, t.batch_id, t.version_id, t.ended_at, t.cut_grams, b.grams_per_tray, {LOTS} AS lot, "
        f"EXISTS ({WEIGHED_TOGETHER}) AS shared, EXISTS (SELECT 1 FROM entry_tray et CROSS JOIN "
        "weight w CROSS JOIN entry e WHERE et.tray_id = t.id AND w.entry_id = et.entry_id "
        f"AND w.tray_id = t.id AND e.id = w.entry_id AND {STANDS} AND (w.keep = 1 OR w.part = 1)) AS several, "
        f"{LAST_PLACE} AS place_id "
        "FROM template_version v CROSS JOIN tray t CROSS JOIN batch b "
        "WHERE t.version_id = v.id AND t.ended_at >= :start AND t.ended_at < :end AND b.id = t.batch_id "
        f"{only} ORDER BY t.ended_at, t.id",
        {"start": stored(start), "end": stored(end), "template": template},
    )


def read_sowings(reading: Rows, batches: Collection[int]) -> dict[int, tuple[datetime, str]]:
    """When each batch was first sown, and who wrote it."""
    rows = reading.rows_of(
        f"SELECT e.batch_id, e.at, e.by FROM entry e WHERE e.kind = 'sow' AND {STANDS} "
        "AND e.batch_id IN (ids) ORDER BY e.at DESC, e.id DESC",
        batches,
    )
    return {batch: (moment(at), by) for batch, at, by in rows}


def read_discards(reading: Rows, trays: Collection[int]) -> dict[int, str]:
    """Why trays were discarded, by tray id, of those that were."""
    rows = reading.rows_of(
        "SELECT et.tray_id, e.note FROM entry_tray et CROSS JOIN entry e "
        f"WHERE et.tray_id IN (ids) AND e.id = et.entry_id AND e.kind = 'discard' AND {STANDS}",
        trays,
    )
    return dict(rows)
