"""The solutions that were used and what was cleaned, from standing entries."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, fields
from datetime import datetime

from logbook.growing.room.solution_use import Use
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, stored


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredUse(Use):
    """A solution that was used, or a cleaning, as an entry says."""

    entry: int
    at: datetime
    by: str
    place: int | None
    note: str


_USE = (
    'SELECT e.id AS entry, e.at, e."by", e.place_id AS place, e.note, '
    f"{', '.join(f'u.{field.name}' for field in fields(Use))} "
    "FROM solution_use u JOIN entry e ON e.id = u.entry_id"
)


def read_uses(reading: Rows, start: datetime, end: datetime) -> list[StoredUse]:
    """The standing uses of solutions and cleanings, oldest first."""
    standing = f"{_USE} WHERE e.at >= ? AND e.at < ? AND {STANDS} ORDER BY e.at, e.id"
    return reading.make(StoredUse, standing, (stored(start), stored(end)))


def uses_of(reading: Rows, entries: Collection[int]) -> dict[int, StoredUse]:
    """What entries used, by entry id; of struck ones too."""
    found = reading.make_of(StoredUse, f"{_USE} WHERE u.entry_id IN (ids)", entries)
    return {each.entry: each for each in found}
