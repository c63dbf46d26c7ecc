"""Reading the trays that have left the rack."""

from collections.abc import Collection
from datetime import datetime
from typing import NamedTuple

from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, grouped, moment, stored


class Gone(NamedTuple):
    """A tray that was cut or discarded, as its row sums it up."""

    id: int
    batch_id: int
    version_id: int
    ended_at: datetime
    cut_grams: float | None
    grams_per_tray: float | None


def read_gone(
    reading: Rows, start: datetime, end: datetime, template: int | None = None
) -> list[Gone]:
    """The trays that left the rack from start until before end, of one template or of all."""
    only = "" if template is None else "AND v.template_id = :template"
    rows = reading.rows(
        "SELECT t.id, t.batch_id, t.version_id, t.ended_at, t.cut_grams, b.grams_per_tray "
        "FROM template_version v CROSS JOIN tray t CROSS JOIN batch b "
        "WHERE t.version_id = v.id AND t.ended_at >= :start AND t.ended_at < :end AND b.id = t.batch_id "
        f"{only} ORDER BY t.ended_at, t.id",
        {"start": stored(start), "end": stored(end), "template": template},
    )
    return [
        Gone(tray, batch, version, moment(at), *grams) for tray, batch, version, at, *grams in rows
    ]


def read_lot_names(reading: Rows, batches: Collection[int]) -> dict[int, str]:
    """The names of the seed lots of batches, several joined by +."""
    rows = reading.rows_of(
        "SELECT batch_id, lot FROM batch_lot WHERE batch_id IN (ids) ORDER BY batch_id, position",
        batches,
    )
    named: dict[int, list[str]] = grouped(rows)
    return {batch: " + ".join(lots) for batch, lots in named.items()}


def read_uncut(reading: Rows, trays: Collection[int]) -> dict[int, tuple[str, str]]:
    """How trays (ids) left the rack that did not with a cut: "discard" or "sold_live", and the note."""
    rows = reading.rows_of(
        "SELECT et.tray_id, e.kind, e.note FROM entry_tray et CROSS JOIN entry e "
        "WHERE et.tray_id IN (ids) AND e.id = et.entry_id AND e.kind IN ('discard', 'sold_live') "
        f"AND {STANDS}",
        trays,
    )
    return {tray: (kind, note) for tray, kind, note in rows}
