"""The solutions that were used and what was cleaned, from standing entries."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.room.solution_use import Use
from logbook.store.reads.standing import said_columns, standing
from logbook.store.rows import Rows, stored


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredUse(Use):
    """A solution that was used, or a cleaning, as an entry says."""

    entry: int
    at: datetime
    by: str
    place: int | None
    note: str


def read_uses(reading: Rows, start: datetime, end: datetime) -> list[StoredUse]:
    """The standing uses of solutions and cleanings, oldest first."""
    within = "AND e.at >= ? AND e.at < ?"
    return standing(reading, StoredUse, "solution_use", within, (stored(start), stored(end)))


def uses_of(reading: Rows, entries: Collection[int]) -> dict[int, StoredUse]:
    """What entries used, by entry id; of struck ones too."""
    found = reading.make_of(
        StoredUse,
        f"SELECT {said_columns(StoredUse)} FROM solution_use x JOIN entry e ON e.id = x.entry_id "
        "WHERE x.entry_id IN (ids)",
        entries,
    )
    return {each.entry: each for each in found}
