"""The tables: what was said and done, and nothing computed but the trays' rebuildable summary."""

from logbook.store.tables import book, costs, crops, entries, orders, room, seed, trays, trials
from logbook.store.tables.base import Table, added, changed, put_rows

__all__ = [
    "Table", "added", "book", "changed", "costs", "crops", "entries", "orders", "put_rows", "room", "seed", "trays",
    "trials",
]  # fmt: skip
