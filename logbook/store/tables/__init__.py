"""The tables: what was said and done, and nothing computed but the trays' rebuildable summary."""

from logbook.store.tables import (
    book,
    costs,
    crops,
    entries,
    orders,
    packs,
    recall,
    records,
    room,
    seed,
    trays,
    trials,
)
from logbook.store.tables.base import Table

__all__ = [
    "Table", "book", "costs", "crops", "entries", "orders", "packs", "recall", "records", "room", "seed", "trays",
    "trials",
]  # fmt: skip
