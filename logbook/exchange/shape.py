"""The shape of a book's tables as the file itself tells it, and the header of their CSV files."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.exchange.cells import Kind
from logbook.store.file.health import table_names
from logbook.store.rows import Rows

_MINUTES = ("day_start", "day_end", "lamp_on", "lamp_off")
_KINDS: dict[str, Kind] = {
    "INTEGER": "whole", "FLOAT": "real", "BOOLEAN": "truth", "DATETIME": "moment",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name, what it holds, its name in a header (units in it).

    `folded_from` names the column whose folded text it keeps; such a one is not exported.
    """

    name: str
    kind: Kind
    nullable: bool
    key: int
    folded_from: str = ""

    @property
    def header(self) -> str:
        """The name in a CSV file's header, with the unit that the name itself does not say."""
        if self.kind == "moment":
            return f"{self.name}_utc"
        return f"{self.name}_minutes" if self.name in _MINUTES else self.name


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
    return [TableShape(name, _columns(reading, name)) for name in table_names(reading.connection)]


def _columns(reading: Rows, table: str) -> tuple[Column, ...]:
    rows = reading.rows("SELECT * FROM pragma_table_info(?)", (table,))
    names = {row[1] for row in rows}
    found = []
    for _, name, declared, notnull, _, key in rows:
        source = name.removesuffix("_key")
        folded = source if source != name and source in names else ""
        kind = _KINDS.get(declared.upper(), "text")
        found.append(Column(name, kind, not notnull and not key, key, folded))
    return tuple(found)
