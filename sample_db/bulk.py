"""Entries on trays as rows, gathered and written in bulk."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from logbook.clock import FixedClock
from logbook.store.rows import stored
from logbook.store.search import keep_words
from logbook.text import clean_note
from sample_db.months import Months

Row = dict[str, Any]
IN_ORDER = (
    "batch", "batch_lot", "tray", "entry", "entry_tray", "tray_place", "pack_lot", "weight", "watering", "look",
)  # fmt: skip
"""The tables that are written in bulk, each after those that its rows point to."""


class Bulk:
    """Entries on trays with their rows, gathered until the next act, since acts take longer."""

    def __init__(self, book: Months) -> None:
        self._book = book
        self._rows: dict[str, list[Row]] = {table: [] for table in IN_ORDER}
        self._ended: list[Row] = []
        self._ids: dict[str, int] = {}
        self._written_at = book.now()

    def put(self, table: str, **row: Any) -> None:
        """Add a row to a table."""
        self._rows[table].append(row)

    def numbered(self, table: str, **row: Any) -> int:
        """Add a row that gets the next id, which is returned."""
        if table not in self._ids:
            highest = f"SELECT max(id) FROM {table}"  # noqa: S608 - our own names
            with self._book.reading() as reading:
                self._ids[table] = reading.value(highest) or 0
        self._ids[table] += 1
        self.put(table, id=self._ids[table], **row)
        return self._ids[table]

    def entry(
        self, kind: str, trays: Sequence[int], at: datetime, by: str, *,
        written_at: datetime | None = None, act: int | None = None, note: str = "", **row: Any,
    ) -> int:  # fmt: skip
        """Add an entry on trays, returning its id; without `act` it begins an act of its own.

        Entries are written one after another: what happened while another was being written is
        written right after it.
        """
        self._written_at = max(written_at or at, self._written_at)
        clean = clean_note(note)
        entry = self.numbered(
            "entry",
            kind=kind, at=stored(at), written_at=stored(self._written_at), by=by, note=clean,
            act_id=act, clock_in_doubt=False, **row,
        )  # fmt: skip
        self._rows["entry"][-1]["act_id"] = act or entry
        for tray in trays:
            self.put("entry_tray", entry_id=entry, tray_id=tray)
        return entry

    def ended(self, tray: int, at: datetime, grams: float | None) -> None:
        """Take a tray off the live ones: cut, with its grams in all, or discarded."""
        self._ended.append({"id": tray, "at": stored(at), "grams": grams})

    def book_at(self, when: datetime, by: str) -> Months:
        """The book for an act at a moment, with all that was done before it."""
        book = self._book
        entries = self._rows["entry"]
        first = entries[0]["id"] if entries else None
        with book.reading() as reading:
            for table, gathered in self._rows.items():
                if gathered:
                    names = ", ".join(f'"{column}"' for column in gathered[0])
                    marks = ", ".join(f":{column}" for column in gathered[0])
                    reading.connection.executemany(
                        f"INSERT INTO {table} ({names}) VALUES ({marks})",  # noqa: S608
                        gathered,
                    )
                    gathered.clear()
            reading.connection.executemany(
                "UPDATE tray SET live = 0, ended_at = :at, cut_grams = :grams WHERE id = :id",
                self._ended,
            )
            if first is not None:
                keep_words(reading, first)
        self._ended.clear()
        self._ids.clear()
        self._written_at = max(when, self._written_at)
        book.clock, book.by = FixedClock(self._written_at), by
        return book
