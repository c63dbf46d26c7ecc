"""Loading what writing needs while nobody waits, so that the first act does not wait for it."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import partial
from importlib import import_module

from logbook.actions.book import Book

PACKAGES = ("sqlalchemy", "sqlalchemy.orm", "sqlmodel", "sqlalchemy.dialects.sqlite")
"""In an order in which none brings much at once."""


def steps_for_writing(book: Book | None) -> Iterator[Callable[[], object]]:
    """Steps, each of 0.2 s and less, after which a first act in the book waits for nothing."""
    for package in PACKAGES:
        yield partial(import_module, package)
    if book is not None:
        yield _load_tables
        yield partial(_connect, book)


def _load_tables() -> None:
    from logbook.actions import writing
    from logbook.actions.trays import doing, moving, noticing, striking, weighing
    from logbook.store import tables

    _ = doing, moving, noticing, striking, tables, weighing, writing


def _connect(book: Book) -> None:
    """Let SQLAlchemy learn what it asks a first connection; a book that has gone is told later."""
    from sqlalchemy.exc import DBAPIError

    with suppress(DBAPIError):
        book.file.engine().connect().close()
