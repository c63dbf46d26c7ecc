"""Writing to a book with plain SQL, in one transaction; what tables declare is in store/tables/.

No act needs the mapper: that would be 0.4 s and 27 MB for a few INSERTs, a second on a small machine.
"""

from collections.abc import Iterable, Mapping
from datetime import date, datetime
from functools import cache
from typing import Any

from logbook.store.columns import Column
from logbook.store.rows import Connection, Rows, stored

UNSAID: dict[str, str | int] = {"VARCHAR": "", "INTEGER": 0, "BOOLEAN": 0, "FLOAT": 0}
"""What a column that must have a value gets when nobody says one, by its type; others must be said."""


class Writer(Rows):
    """One writing transaction of a book: its rows as they are so far, and more of them."""

    def __init__(self, connection: Connection, tables: Mapping[str, list[Column]]) -> None:
        super().__init__(connection)
        self.tables = tables

    def add(self, table: str, /, **row: Any) -> int:
        """Write a row of a table whose rows are numbered; returns the number that it got."""
        whole = row | self._unsaid(table, row)
        key = next(each.name for each in self.tables[table] if each.key)
        sql = f"{_insert(table, tuple(whole))} RETURNING {key}"
        return int(self.value(sql, _kept(whole.values())))

    def put(self, table: str, rows: Iterable[Mapping[str, Any]]) -> None:
        """Write rows by their columns, the same ones in each; those with a number of their own get one."""
        if said := list(rows):
            names, unsaid = tuple(said[0]), self._unsaid(table, said[0])
            values = (_kept((*(row[name] for name in names), *unsaid.values())) for row in said)
            self.connection.executemany(_insert(table, (*names, *unsaid)), values)

    def change(self, table: str, which: int, /, **row: Any) -> None:
        """Change columns of a row by its number."""
        marks = ", ".join(f'"{name}" = ?' for name in row)
        self.connection.execute(
            f'UPDATE "{table}" SET {marks} WHERE id = ?', (*_kept(row.values()), which)
        )

    def commit(self) -> None:
        """Keep what was written: from here on it is in the book, synced."""
        self.connection.execute("COMMIT")

    def _unsaid(self, table: str, row: Mapping[str, Any]) -> dict[str, str | int]:
        return {
            each.name: UNSAID[each.type]
            for each in self.tables[table]
            if each.needed and each.name not in row and each.type in UNSAID
        }


@cache
def _insert(table: str, names: tuple[str, ...]) -> str:
    columns = ", ".join(f'"{name}"' for name in names)
    return f'INSERT INTO "{table}" ({columns}) VALUES ({", ".join("?" * len(names))})'


def _kept(values: Iterable[Any]) -> list[Any]:
    """Values as the tables hold them. Raises ValueError for a moment without a zone."""
    return [_day_kept(value) if isinstance(value, date) else value for value in values]


def _day_kept(day: date) -> float | str:
    if not isinstance(day, datetime):
        return day.isoformat()
    if day.tzinfo is None:
        raise ValueError("a moment needs a zone")
    return stored(day)
