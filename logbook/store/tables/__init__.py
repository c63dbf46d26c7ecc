"""The tables: what was said and done, and nothing computed but the trays' rebuildable summary.

Imported from here are those whose rows are changed, or whose number is asked for; the others are
written by name (`put_rows`).
"""

from logbook.store.tables import entries, room
from logbook.store.tables.base import Table, added, put_rows
from logbook.store.tables.book import BookRow, PlaceRow
from logbook.store.tables.crops import TemplateRow, TemplateVersionRow
from logbook.store.tables.entries import EntryRow
from logbook.store.tables.trays import BatchRow, TrayRow
from logbook.store.tables.trials import TastingRow, TrialRow

__all__ = [
    "BatchRow", "BookRow", "EntryRow", "PlaceRow", "Table", "TastingRow", "TemplateRow",
    "TemplateVersionRow", "TrayRow", "TrialRow", "added", "entries", "put_rows", "room",
]  # fmt: skip
