"""Asking the book's tables: plain SQL in, rows or frozen dataclasses out. Nothing here commits."""

import gc
import sqlite3
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from decimal import Decimal
from functools import cache
from types import NoneType
from typing import Any, Protocol, TypeVar, get_args, get_type_hints

Shape = TypeVar("Shape")
Key = TypeVar("Key")
Value = TypeVar("Value")
Row = tuple[Any, ...]
Values = Sequence[object] | Mapping[str, object]
"""What a query's marks stand for, in their order or by name."""


class Connection(Protocol):
    """What takes SQL: SQLite's connection, or a server's link, which asks it in its own words."""

    def execute(self, sql: str, values: Values = ..., /) -> Any:
        """Run a statement; returns its cursor."""

    def executemany(self, sql: str, rows: Iterable[Any], /) -> Any:
        """Run a statement once for each row of values."""


CHUNK = 500
"""So many ids go into one statement."""
LARGEST_ID = 2**63
"""No row's id reaches this: SQLite's integers end before it."""


def moment(kept: float | str | None) -> datetime:
    """A stored moment, aware, in UTC; an older book's is a text. Raises DatabaseError for none."""
    try:
        if isinstance(kept, str):
            return datetime.fromisoformat(kept).replace(tzinfo=UTC)
        return datetime.fromtimestamp(kept, UTC)  # type: ignore[arg-type]  # None is caught
    except (TypeError, ValueError, OverflowError, OSError) as fault:
        raise sqlite3.DatabaseError("malformed: a time that is none") from fault


def maybe_moment(kept: float | str | None) -> datetime | None:
    """A stored moment that may be missing."""
    return None if kept is None else moment(kept)


def stored(at: datetime) -> float:
    """A moment as the tables hold it: seconds since 1970 in UTC, a whole number where it is one."""
    seconds = at.timestamp()
    return int(seconds) if seconds.is_integer() else seconds


@contextmanager
def unswept() -> Iterator[None]:
    """Look for no garbage meanwhile: where very many objects are made, all of which are kept."""
    swept = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if swept:
            gc.enable()


def quoted(names: Iterable[str]) -> str:
    """Our own names as SQL lists them: 'sow', 'plan'."""
    return ", ".join(f"'{name}'" for name in names)


def chunks(ids: Iterable[Key]) -> list[list[Key]]:
    """Ids, each once, in pieces that one statement takes."""
    every = list(dict.fromkeys(ids))
    return [every[start : start + CHUNK] for start in range(0, len(every), CHUNK)]


def grouped(pairs: Iterable[tuple[Key, Value]]) -> dict[Key, list[Value]]:
    """Values by what stands before them, in their order."""
    found: dict[Key, list[Value]] = {}
    for key, value in pairs:
        found.setdefault(key, []).append(value)
    return found


_READ: dict[Any, Callable[[Any], Any]] = {
    datetime: moment, date: date.fromisoformat, bool: bool, Decimal: Decimal,
}  # fmt: skip
Build = Callable[[Row], Any]


@cache
def _builder(shape: type, columns: tuple[str, ...]) -> Build:
    """What makes a shape of a row with these columns; "cut.best" is the field best of its cut.

    A part whose columns are all NULL is None where its field may be.
    """
    kinds = get_type_hints(shape)
    whole = [place for place, column in enumerate(columns) if "." not in column]
    names = [columns[place] for place in whole]
    reads = [(name, read) for name in names if (read := _READ.get(bare(kinds[name]))) is not None]
    parts = _parts(kinds, columns)

    def build(row: Row) -> Any:
        values = dict(zip(names, [row[place] for place in whole], strict=True))
        for name, read in reads:
            if values[name] is not None:
                values[name] = read(values[name])
        for name, places, optional, make in parts:
            some = tuple(row[place] for place in places)
            empty = optional and all(value is None for value in some)
            values[name] = None if empty else make(some)
        return shape(**values)

    return build


def _parts(
    hints: Mapping[str, Any], columns: tuple[str, ...]
) -> list[tuple[str, tuple[int, ...], bool, Build]]:
    """The fields that are shapes of their own: name, places of the columns, may be None, maker."""
    places = grouped(
        (column.split(".", 1)[0], place) for place, column in enumerate(columns) if "." in column
    )
    found = []
    for name, mine in places.items():
        inner = bare(hints[name])
        below = tuple(columns[place].split(".", 1)[1] for place in mine)
        found.append((name, tuple(mine), inner is not hints[name], _builder(inner, below)))
    return found


def bare(hint: Any) -> Any:
    """A type without the None that it may be."""
    options = [each for each in get_args(hint) if each is not NoneType]
    return options[0] if NoneType in get_args(hint) else hint


class Rows:
    """One moment of a book, as its tables hold it; the dialect is the database's."""

    def __init__(self, connection: Connection) -> None:
        self.connection: Any = connection
        """What the database's own module takes, where something is only one database's."""
        self.dialect: str = getattr(connection, "dialect", "sqlite")

    def rows(self, sql: str, values: Values = ()) -> list[Row]:
        """All rows of a query."""
        found: list[Row] = self.connection.execute(sql, values).fetchall()
        return found

    def row(self, sql: str, values: Values = ()) -> Row | None:
        """The first row of a query; None where there is none."""
        found: Row | None = self.connection.execute(sql, values).fetchone()
        return found

    def value(self, sql: str, values: Values = ()) -> Any:
        """The first column of the first row; None where there is no row."""
        found = self.row(sql, values)
        return found[0] if found else None

    def rows_of(self, sql: str, ids: Collection[int] | Collection[str]) -> Iterator[Row]:
        """The rows of a query whose last parameter, spelled (ids), is a list of any length."""
        for cursor in self._cursors(sql, ids):
            yield from cursor

    def _cursors(self, sql: str, ids: Collection[int] | Collection[str]) -> Iterator[Any]:
        for some in chunks(ids):
            marks = ",".join("?" * len(some))
            yield self.connection.execute(sql.replace("(ids)", f"({marks})"), some)

    def make(self, shape: type[Shape], sql: str, values: Values = ()) -> list[Shape]:
        """The rows of a query as frozen dataclasses; its columns are named like their fields.

        Moments, dates and truths are read from how they are stored, by the fields' types; a column
        named "cut.best" is the field best of the field cut.
        """
        return list(_made(shape, self.connection.execute(sql, values)))

    def make_of(self, shape: type[Shape], sql: str, ids: Collection[int]) -> list[Shape]:
        """As make(), of a query whose last parameter, spelled (ids), is a list of any length."""
        return [each for cursor in self._cursors(sql, ids) for each in _made(shape, cursor)]

    def make_by(self, shape: type[Shape], sql: str, ids: Collection[int]) -> dict[int, Shape]:
        """As make_of(), by the id in the first column, which is no field of the shape."""
        found: dict[int, Shape] = {}
        for cursor in self._cursors(sql, ids):
            build = _builder(shape, tuple(column[0] for column in cursor.description[1:]))  # type: ignore[arg-type]  # types are hashable
            found |= {key: build(tuple(row)) for key, *row in cursor}
        return found


def _made(shape: type[Shape], cursor: Any) -> Iterator[Shape]:
    columns = tuple(column[0] for column in cursor.description)
    build = _builder(shape, columns)  # type: ignore[arg-type]
    return (build(row) for row in cursor)
