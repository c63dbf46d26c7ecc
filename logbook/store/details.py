"""The narrow tables beside an entry: copying what one entry says to the entry in its place."""

from __future__ import annotations

from functools import lru_cache

from logbook.store.rows import Rows


@lru_cache(maxsize=1)
def _detail_tables() -> dict[str, tuple[str, ...]]:
    """Name the tables that hold details of an entry, with their columns but entry_id and id."""
    from logbook.store.tables import Table

    return {
        table.name: tuple(
            column.name for column in table.columns if column.name not in ("id", "entry_id")
        )
        for table in Table.metadata.sorted_tables
        if "entry_id" in table.columns and table.name not in ("entry_tray", "entry_words")
    }


def copy_details(reading: Rows, old: int, new: int) -> None:
    """Write every detail of one entry anew for another."""
    for table, columns in _detail_tables().items():
        names = ", ".join(f'"{column}"' for column in columns)
        reading.connection.execute(
            f'INSERT INTO "{table}" (entry_id, {names}) '  # noqa: S608 - our own names
            f'SELECT ?, {names} FROM "{table}" WHERE entry_id = ?',
            (new, old),
        )
