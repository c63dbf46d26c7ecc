"""What all tables share: how constraints are named, and their two usual keys."""

from __future__ import annotations

from typing import ClassVar

from sqlalchemy import MetaData
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


class Numbered(Table):
    """A table whose rows have a number of their own."""

    id: int | None = Field(default=None, primary_key=True)


class OfEntry(Table):
    """A table of what an entry says beyond itself: one row an entry, or one more key beside."""

    entry_id: int = Field(foreign_key="entry.id", primary_key=True)
