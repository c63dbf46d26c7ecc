"""What all tables share: how constraints are named, and their two usual keys."""

from datetime import datetime
from typing import Any, ClassVar

from sqlalchemy import Connection, DateTime, Dialect, Index, MetaData, event, text
from sqlalchemy.types import TypeDecorator, TypeEngine, UserDefinedType
from sqlmodel import Field, SQLModel

from logbook.store.rows import maybe_moment, stored

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Table(SQLModel):
    """The base of all tables; constraint names follow one convention from the first day on."""

    metadata: ClassVar[MetaData] = MetaData(naming_convention=NAMING)
    model_config = {"defer_build": True}
    """Rows are made from checked drafts and never validated: what would do it isn't built."""


LINK = {"sqlite_with_rowid": False}
"""Of a table whose key is of several columns: SQLite keeps its rows by that alone, once."""


class Moment(TypeDecorator[datetime]):
    """A moment, aware, in UTC, as `stored` keeps it."""

    impl = DateTime
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        """Seconds; the type's name is only a name."""
        return dialect.type_descriptor(_Seconds(dialect.name))

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> Any:
        """The moment as it is kept; raises ValueError for one without a zone."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment needs a zone")
        return stored(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """The moment that is kept."""
        return maybe_moment(value)


class _Seconds(UserDefinedType[Any]):
    cache_ok = True

    def __init__(self, dialect: str = "sqlite") -> None:
        self.dialect = dialect

    def get_col_spec(self, **_: object) -> str:
        return "moment" if self.dialect == "postgresql" else "DATETIME"


def partial_index(name: str, column: str, where: str, *, unique: bool = False) -> Index:
    """An index of the rows of which a condition is true, or a flag.

    Only SQLite's dialect is told of it here: an option of another's would load that too (3 MB).
    """
    where = where if " " in where else f"{where} = 1"
    index = Index(name, column, unique=unique, sqlite_where=text(where))
    index.info["where"] = where
    return index


@event.listens_for(Table.metadata, "before_create")
def _tell_postgresql(metadata: MetaData, connection: Connection, **_: object) -> None:
    if connection.dialect.name == "postgresql":
        for index in (each for table in metadata.tables.values() for each in table.indexes):
            if "where" in index.info:
                index.dialect_options["postgresql"]["where"] = text(index.info["where"])


class Numbered(Table):
    """A table whose rows have a number of their own."""

    id: int | None = Field(default=None, primary_key=True)


class OfEntry(Table):
    """A table of what an entry says beyond itself: one row an entry, or one more key beside."""

    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
