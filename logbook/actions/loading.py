"""Loading what writing needs while nobody waits, so that the first act does not wait for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from logbook.actions.book import Book


def load_packages() -> None:
    """Load the packages that writing needs; load_for_writing() does the rest."""
    import sqlmodel
    from sqlalchemy.dialects import sqlite

    _ = sqlmodel.Session, sqlite.dialect


def load_for_writing(book: Book) -> None:
    """Load all that the first act would wait for: our tables, the daily acts, the book's engine."""
    from sqlalchemy.orm import configure_mappers

    from logbook.actions import doing, lamp_hours, moving, noticing, striking, weighing
    from logbook.store import reads_lamps

    _ = doing, lamp_hours, moving, noticing, striking, weighing, reads_lamps
    configure_mappers()
    book.file.engine()
