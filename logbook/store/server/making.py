"""Making a book's tables on a server and bringing them up to date, in one transaction."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from logbook.store.columns import read_columns
from logbook.store.file.about import describe
from logbook.store.file.faults import NotABook
from logbook.store.file.opening import check_known, run_scripts
from logbook.store.revision import HEAD
from logbook.store.rows import Rows
from logbook.store.server.address import Address, driver
from logbook.store.server.faults import server_words
from logbook.store.server.link import Link, read_as_the_file
from logbook.store.server.server_book import LOCK, ServerBook
from logbook.store.writer import Writer
from logbook.text import Refused

_TRIGRAMS = (
    "CREATE EXTENSION IF NOT EXISTS pg_trgm",
    "CREATE INDEX entry_words_trigrams ON entry_words USING gin (words gin_trgm_ops)",
)
"""The index that a search goes by; without it a search reads every word."""


def opened_server(book: ServerBook) -> ServerBook:
    """The server's book, found to be one; its tables are brought up to date.

    Raises:
        NoBook, NotABook: as ServerBook.check_kind().
        Newer: a newer program wrote it.
    """
    revision = book.check_kind()
    if revision != HEAD:
        check_known(book.name, revision)
        with _transaction(book.address) as (connection, raw):
            raw.execute(LOCK)
            run_scripts(connection, HEAD)
            describe(Link(raw))
    book.was_there = True
    return book


@contextmanager
def new_server_book(address: Address) -> Iterator[Writer]:
    """Make a book's tables in an empty database, and write its first rows: all of it or nothing.

    Raises NotABook where something is there already, or the database may not be made into a book.
    """
    from logbook.store.server.types import DOMAINS

    with _transaction(address) as (connection, raw):
        raw.execute(LOCK)
        if read_columns(Rows(Link(raw))):
            raise NotABook(f"There are tables in {address} already; it was not touched.")
        for domain in DOMAINS:
            raw.execute(domain)
        run_scripts(connection, HEAD)
        link = Link(raw)
        describe(link)
        try:
            with raw.transaction():
                for step in _TRIGRAMS:
                    raw.execute(step)
        except driver().Error:  # the extension isn't there, or this name may not add it
            pass
        yield Writer(link, read_columns(Rows(link)))


@contextmanager
def keyless(link: Link) -> Iterator[None]:
    """Rows may be written in any order, and with numbers of their own, till the block ends.

    Then each must point to one that is there, and new rows are numbered after them. Raises Refused.
    """
    keys = link.execute(
        "SELECT conrelid::regclass::text, quote_ident(conname), pg_get_constraintdef(oid), conname "
        "FROM pg_constraint WHERE contype = 'f' AND connamespace = to_regnamespace(current_schema())"
    ).fetchall()
    for table, name, _, _ in keys:
        link.execute(f"ALTER TABLE {table} DROP CONSTRAINT {name}")
    yield
    for table, name, says, plain in keys:
        try:
            link.execute(f"ALTER TABLE {table} ADD CONSTRAINT {name} {says}")
        except driver().errors.ForeignKeyViolation as fault:
            raise Refused(f"A row of {table} points to one that is not there ({plain}).") from fault
    for table, columns in read_columns(Rows(link)).items():
        if any(each.name == "id" and each.default for each in columns):
            told = "coalesce(max(id), 1), max(id) IS NOT NULL"
            link.execute(
                f"SELECT setval(pg_get_serial_sequence('{table}', 'id'), {told}) FROM {table}"  # noqa: S608
            )


@contextmanager
def _transaction(address: Address) -> Iterator[tuple[Any, Any]]:
    from sqlalchemy import NullPool
    from sqlalchemy.exc import DBAPIError
    from sqlmodel import create_engine

    def connected() -> Any:
        made = driver().connect(address.given, connect_timeout=15, application_name="logbook")
        read_as_the_file(made)
        return made

    try:
        engine = create_engine("postgresql+psycopg://", creator=connected, poolclass=NullPool)
        with engine.begin() as connection:
            yield connection, connection.connection.dbapi_connection
    except DBAPIError as fault:
        raise server_words(fault.orig or fault, address) from fault
    except driver().Error as fault:
        raise server_words(fault, address) from fault
