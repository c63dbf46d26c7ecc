"""Asking the book's tables: plain SQL in, rows or frozen dataclasses out. Nothing here commits."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import fields
from datetime import UTC, date, datetime
from functools import cache
from typing import Any, TypeVar

Shape = TypeVar("Shape")
Row = tuple[Any, ...]

CHUNK = 500
"""So many ids go into one statement."""


def moment(text: str | None) -> datetime:
    """A stored moment, aware, in UTC; raises DatabaseError for a text that is none."""
    try:
        return datetime.fromisoformat(text or "").replace(tzinfo=UTC)
    except (TypeError, ValueError) as fault:
        raise sqlite3.DatabaseError("malformed: a time that is none") from fault


def stored(at: datetime) -> str:
    """A moment as the tables hold it, for comparing in SQL."""
    return at.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")


def chunks(ids: Iterable[int]) -> list[list[int]]:
    """Ids, each once, in pieces that one statement takes."""
    every = list(dict.fromkeys(ids))
    return [every[start : start + CHUNK] for start in range(0, len(every), CHUNK)]


_READ: dict[str, Callable[[Any], Any]] = {
    "datetime": moment,
    "date": date.fromisoformat,
    "bool": bool,
}


@cache
def _plan(shape: type, columns: tuple[str, ...]) -> tuple[tuple[int, Callable[[Any], Any]], ...]:
    """Which of the columns of a shape are stored in another form: place and reader."""
    kinds = {field.name: str(field.type) for field in fields(shape)}
    found = []
    for place, column in enumerate(columns):
        read = _READ.get(kinds[column].removesuffix(" | None"))
        if read is not None:
            found.append((place, read))
    return tuple(found)


class Rows:
    """One moment of a book, as its tables hold it; the dialect is the database's."""

    dialect = "sqlite"

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def rows(self, sql: str, values: Sequence[object] = ()) -> list[Row]:
        """All rows of a query."""
        return self.connection.execute(sql, values).fetchall()

    def row(self, sql: str, values: Sequence[object] = ()) -> Row | None:
        """The first row of a query; None where there is none."""
        found: Row | None = self.connection.execute(sql, values).fetchone()
        return found

    def value(self, sql: str, values: Sequence[object] = ()) -> Any:
        """The first column of the first row; None where there is no row."""
        found = self.row(sql, values)
        return found[0] if found else None

    def rows_of(
        self, sql: str, ids: Collection[int], values: Sequence[object] = ()
    ) -> Iterator[Row]:
        """The rows of a query whose last parameter, spelled (ids), is a list of any length."""
        for some in chunks(ids):
            yield from self.connection.execute(_listing(sql, some), (*values, *some))

    def make(self, shape: type[Shape], sql: str, values: Sequence[object] = ()) -> list[Shape]:
        """The rows of a query as frozen dataclasses; its columns are named like their fields.

        Moments, dates and truths are read from how they are stored, by the fields' types.
        """
        return list(_made(shape, self.connection.execute(sql, values)))

    def make_of(
        self, shape: type[Shape], sql: str, ids: Collection[int], values: Sequence[object] = ()
    ) -> list[Shape]:
        """As make(), of a query whose last parameter, spelled (ids), is a list of any length."""
        found: list[Shape] = []
        for some in chunks(ids):
            found += _made(shape, self.connection.execute(_listing(sql, some), (*values, *some)))
        return found


def _listing(sql: str, ids: Collection[int]) -> str:
    return sql.replace("(ids)", f"({','.join('?' * len(ids))})")


def _made(shape: type[Shape], cursor: sqlite3.Cursor) -> Iterator[Shape]:
    columns = tuple(column[0] for column in cursor.description)
    plan = _plan(shape, columns)  # type: ignore[arg-type]  # types are hashable
    for row in cursor:
        values = list(row)
        for place, read in plan:
            if values[place] is not None:
                values[place] = read(values[place])
        yield shape(**dict(zip(columns, values, strict=True)))
