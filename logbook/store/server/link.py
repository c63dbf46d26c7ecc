"""A connection to PostgreSQL that takes the book's SQL as the file takes it, and gives what it gives.

Tables hold the same there as in the file: moments as seconds, truths as 0 or 1 (the types `moment`
and `truth`, store/server/types.py). So statements differ in little: their marks, and a few names.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

from logbook.store.rows import Values
from logbook.text import stored_text

if TYPE_CHECKING:
    import psycopg

_QUOTED = re.compile(r"""('(?:[^']|'')*'|"[^"]*")""")
_NAMES = (
    (re.compile(r"\bCROSS JOIN(?=\s+\w+(?:\s+\w+)?\s+ON\b)"), "JOIN"),
    (re.compile(r"\bgroup_concat\(DISTINCT ([\w.]+)\)"), "string_agg(DISTINCT \\1, ',')"),
    (re.compile(r"\bgroup_concat\("), "string_agg("),
    (re.compile(r"\binstr\("), "strpos("),
    (re.compile(r"\bIS \?"), "IS NOT DISTINCT FROM ?"),
    (re.compile(r"\?"), "%s"),
    (re.compile(r"(?<![:\w]):([a-z_]+)"), r"%(\1)s"),
)
"""What PostgreSQL spells otherwise. SQLite's CROSS JOIN only tells in which order it searches."""


@cache
def spelled(sql: str) -> str:
    """A statement of the file as PostgreSQL and its driver spell it."""
    parts = _QUOTED.split(sql.replace("%", "%%"))
    for place in range(0, len(parts), 2):
        for sign, other in _NAMES:
            parts[place] = sign.sub(other, parts[place])
    return "".join(parts)


def _bound(values: Values) -> Any:
    if isinstance(values, dict):
        return {name: _number(value) for name, value in values.items()}
    return [_number(value) for value in values]


def _number(value: object) -> object:
    return int(value) if isinstance(value, bool) else value


class Link:
    """A server's connection as Rows and Writer ask it."""

    dialect = "postgresql"

    def __init__(self, connection: psycopg.Connection[Any]) -> None:
        self.connection = connection

    def execute(self, sql: str, values: Values = (), /) -> Any:
        """Run a statement; returns its cursor."""
        return self.connection.execute(spelled(sql), _bound(values))

    def executemany(self, sql: str, rows: Iterable[Sequence[Any]], /) -> Any:
        """Run a statement once for each row of values."""
        cursor = self.connection.cursor()
        cursor.executemany(spelled(sql), [_bound(row) for row in rows])
        return cursor


def read_as_the_file(connection: psycopg.Connection[Any]) -> None:
    """Let a connection give values as SQLite gives them: truths as numbers, days as text."""
    from psycopg.adapt import Loader

    class Text(Loader):
        def load(self, data: Any) -> str:
            return stored_text(bytes(data))

    class Truth(Loader):
        def load(self, data: Any) -> int:
            return int(bytes(data) == b"t")

    class Numeric(Loader):
        def load(self, data: Any) -> int | float:
            text = bytes(data).decode()
            return float(text) if "." in text or not text.lstrip("-").isdigit() else int(text)

    for kinds, loader in (
        (("text", "varchar", "bpchar", "date", "name"), Text), (("bool",), Truth), (("numeric",), Numeric),
    ):  # fmt: skip
        for kind in kinds:
            connection.adapters.register_loader(kind, loader)
