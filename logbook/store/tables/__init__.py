"""The tables: what was said and done, and nothing computed but the trays' rebuildable summary."""

from logbook.store.tables import book, crops, entries, room, trays, trials
from logbook.store.tables.base import Table, added, changed, put_rows

__all__ = [
    "Table", "added", "book", "changed", "crops", "entries", "put_rows", "room", "trays", "trials",
]  # fmt: skip
