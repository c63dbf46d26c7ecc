"""What was cut lately and went into no pack lot, by crop."""

from datetime import datetime

from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, moment, stored


def read_cuts(reading: Rows, since: datetime) -> list[tuple[int, int, datetime, float]]:
    """The standing cut weights without a lot since a moment: template id, version id, when, g."""
    rows = reading.rows(
        "SELECT v.template_id, v.id, e.at, w.grams FROM entry e CROSS JOIN weight w ON w.entry_id = e.id "
        "CROSS JOIN tray t ON t.id = w.tray_id CROSS JOIN template_version v ON v.id = t.version_id "
        f"WHERE e.at >= ? AND w.grams > 0 AND w.lot_id IS NULL AND {STANDS} "
        "ORDER BY e.at, e.id, w.tray_id",
        (stored(since),),
    )
    return [(template, version, moment(at), grams) for template, version, at, grams in rows]
