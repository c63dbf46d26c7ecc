"""Reading what was cut in a span without a lot, and recalls that were kept."""

from collections.abc import Collection
from datetime import datetime

from logbook.growing.recall.recall import KeptRecall
from logbook.store.reads.standing import STANDS, said_by, standing
from logbook.store.rows import Rows, stored


def cut_without_lot(reading: Rows, start: datetime, end: datetime) -> list[tuple[int, int]]:
    """The standing cuts of a span that went into no pack lot: entry and tray (ids)."""
    rows = reading.rows(
        "SELECT w.entry_id, w.tray_id FROM entry e CROSS JOIN weight w ON w.entry_id = e.id "
        f"WHERE e.at >= ? AND e.at < ? AND w.lot_id IS NULL AND {STANDS} ORDER BY e.id",
        (stored(start), stored(end)),
    )
    return [(entry, tray) for entry, tray in rows]


def read_recalls(reading: Rows) -> list[KeptRecall]:
    """The recalls that were kept, oldest first."""
    return standing(reading, KeptRecall, "recall")


def recalls_of(reading: Rows, entries: Collection[int]) -> dict[int, KeptRecall]:
    """The recalls that entries keep, by entry id; of struck ones too."""
    return said_by(reading, KeptRecall, "recall", entries)
