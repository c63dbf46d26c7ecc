"""What a book's tables hold, as its database tells it: the same words for both databases."""

from typing import NamedTuple

from logbook.store.rows import Row, Rows, grouped

_ASKED = {
    "sqlite": (
        'SELECT t.name, c.name, c.type, c."notnull", c.dflt_value, c.pk '
        "FROM sqlite_master t JOIN pragma_table_info(t.name) c WHERE t.type = 'table' "
        "AND t.name NOT LIKE 'sqlite%' AND t.sql NOT LIKE 'CREATE VIRTUAL %' "
        "AND t.name NOT LIKE '\\_alembic%' ESCAPE '\\' ORDER BY t.name, c.cid"
    ),
    "postgresql": (
        "SELECT t.relname, c.attname, k.typname, CASE WHEN c.attnotnull THEN 1 ELSE 0 END, "
        "pg_get_expr(d.adbin, d.adrelid), coalesce(array_position(p.conkey, c.attnum), 0) "
        "FROM pg_class t JOIN pg_attribute c ON c.attrelid = t.oid JOIN pg_type k ON k.oid = c.atttypid "
        "LEFT JOIN pg_attrdef d ON d.adrelid = t.oid AND d.adnum = c.attnum "
        "LEFT JOIN pg_constraint p ON p.conrelid = t.oid AND p.contype = 'p' "
        "WHERE t.relkind = 'r' AND t.relnamespace = to_regnamespace(current_schema()) "
        'AND c.attnum > 0 AND NOT c.attisdropped ORDER BY t.relname COLLATE "C", c.attnum'
    ),
}
_TYPES: dict[str, str] = {
    "int2": "INTEGER", "int4": "INTEGER", "int8": "INTEGER", "float8": "FLOAT", "truth": "BOOLEAN",
    "moment": "DATETIME", "varchar": "VARCHAR", "text": "VARCHAR", "date": "DATE",
}  # fmt: skip
"""PostgreSQL's names of types by those of the file."""


DERIVED = ("entry_words", "entry_index", "about")
"""What the names of tables begin with that are made again from elsewhere (store/search.py, about.py)."""


class Column(NamedTuple):
    """A column of a book's tables."""

    name: str
    type: str
    """As the file's tables name it: INTEGER, FLOAT, BOOLEAN, DATETIME, VARCHAR, DATE."""
    filled: bool
    """Whether it must have a value."""
    default: str | None
    """SQL for the value of a row that doesn't say one."""
    key: int
    """Its place in the table's key, from 1; 0 where it is in none."""

    @property
    def needed(self) -> bool:
        """Whether it must have a value that nothing else gives."""
        return self.filled and not self.key and self.default is None


def read_columns(rows: Rows) -> dict[str, list[Column]]:
    """The columns of the book's own tables, by table, both in their order."""
    found = rows.rows(_ASKED[rows.dialect])
    return grouped((row[0], _column(row)) for row in found if row[0] != "alembic_version")


def _column(row: Row) -> Column:
    _, name, kind, filled, default, key = row
    return Column(name, _TYPES.get(str(kind), str(kind)), bool(filled), default, key)
