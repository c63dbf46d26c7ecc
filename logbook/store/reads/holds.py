"""Reading holds: those that stand, and what entries put on hold or released."""

from collections.abc import Collection

from logbook.growing.recall.holds import Hold, Holds
from logbook.store.reads.standing import STANDS, standing
from logbook.store.rows import Rows

_RELEASED = f"""
SELECT 1 FROM hold_end h JOIN entry e ON e.id = h.entry_id
WHERE h.hold_id = x.entry_id AND {STANDS}
"""
"""Of a hold `x`: a standing release of it."""


def read_holds(reading: Rows) -> Holds:
    """The holds that stand and are not released, oldest first."""
    return Holds(tuple(standing(reading, Hold, "hold", f"AND NOT EXISTS ({_RELEASED})")))


def held_by(reading: Rows, entries: Collection[int]) -> dict[int, str]:
    """What entries put on hold or released, by entry id; of struck ones too."""
    sql = (
        "SELECT h.entry_id, x.name FROM (SELECT entry_id, entry_id AS hold_id FROM hold "
        "UNION ALL SELECT entry_id, hold_id FROM hold_end) h "
        "JOIN hold x ON x.entry_id = h.hold_id WHERE h.entry_id IN (ids)"
    )
    return dict(reading.rows_of(sql, entries))
