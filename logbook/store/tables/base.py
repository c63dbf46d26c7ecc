"""What all tables share: how constraints are named, and their two usual keys."""

from __future__ import annotations

from typing import ClassVar

from sqlalchemy import Connection, Index, MetaData, event, text
from sqlmodel import Field, SQLModel

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


def partial_index(name: str, column: str, where: str, *, unique: bool = False) -> Index:
    """An index of the rows of which a flag is true.

    Only SQLite's dialect is told of it here: an option of another's would load that too (3 MB).
    """
    index = Index(name, column, unique=unique, sqlite_where=text(f"{where} = 1"))
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
