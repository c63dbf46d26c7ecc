"""The shape of a book's tables as the file itself tells it, and how their values stand in CSV files.

A spreadsheet runs a cell that begins with = + - @ (OWASP, "CSV Injection"). A text that begins
so, or with the mark itself, is written with the mark ' before it; numbers are written as numbers,
so that a negative one stays one. An empty cell is nothing; where nothing and empty text both can
be, empty text is the mark alone.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.exchange.column import Column, Kind
from logbook.store import columns as stored
from logbook.store.columns import DERIVED, read_columns
from logbook.store.rows import Rows

_KINDS: dict[str, Kind] = {
    "INTEGER": "whole", "FLOAT": "real", "BOOLEAN": "truth", "DATETIME": "moment",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class TableShape:
    """A table and its columns, in their order."""

    name: str
    columns: tuple[Column, ...]

    @property
    def file(self) -> str:
        """The name of its CSV file."""
        return f"{self.name}.csv"

    @property
    def given(self) -> tuple[Column, ...]:
        """The columns that are exported."""
        return tuple(column for column in self.columns if not column.folded_from)

    @property
    def header(self) -> list[str]:
        """The header of its CSV file."""
        return [column.header for column in self.given]

    @property
    def keys(self) -> tuple[str, ...]:
        """The columns of the primary key, which rows are sorted by."""
        keyed = sorted((column for column in self.columns if column.key), key=lambda one: one.key)
        return tuple(column.name for column in keyed)


def read_shape(reading: Rows) -> list[TableShape]:
    """The tables of a book by name, without those of the database's own housekeeping."""
    return [
        TableShape(name, tuple(_columns(columns)))
        for name, columns in read_columns(reading).items()
        if not name.startswith(DERIVED)
    ]


def _columns(columns: list[stored.Column]) -> Iterator[Column]:
    names = {each.name for each in columns}
    for each in columns:
        source = each.name.removesuffix("_key")
        folded = source if source != each.name and source in names else ""
        kind = _KINDS.get(each.type.upper(), "text")
        yield Column(each.name, kind, not each.filled and not each.key, each.key, folded)
