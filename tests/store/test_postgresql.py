"""The same tables on PostgreSQL, where LOGBOOK_TEST_POSTGRES names a server to try them on."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, create_engine, inspect, text
from sqlalchemy.exc import IntegrityError

from logbook.store.file.opening import run_scripts
from logbook.store.revision import HEAD
from logbook.store.server.types import DOMAINS
from logbook.store.tables import Table

SERVER = os.environ.get("LOGBOOK_TEST_POSTGRES", "")
pytestmark = pytest.mark.skipif(not SERVER, reason="LOGBOOK_TEST_POSTGRES names no server")


@pytest.fixture
def connection() -> Iterator[Connection]:
    """Give a connection in a schema of its own; nothing of it is kept."""
    engine = create_engine(SERVER)
    try:
        with engine.connect() as connection:
            connection.execute(text("CREATE SCHEMA book_of_a_test"))
            connection.execute(text("SET LOCAL search_path TO book_of_a_test"))
            for domain in DOMAINS:
                connection.execute(text(domain))
            yield connection
            connection.rollback()
    finally:
        engine.dispose()


def _other_type(
    _context: object, _inspected: object, _declared: object, there: Any, declared: Any
) -> bool:
    """Whether a column has another type than its table declares; a domain goes by its name."""
    return _type_name(there) != _type_name(declared)


def _type_name(of: Any) -> str:
    words = getattr(of, "name", None) or str(of.compile(dialect=create_engine(SERVER).dialect))
    name = str(words).casefold().partition(" ")[0]
    return {"double": "float"}.get(name, name)


def _differences(connection: Connection) -> list[object]:
    context = MigrationContext.configure(connection, opts={"compare_type": _other_type})
    return list(compare_metadata(context, Table.metadata))


def test_the_declared_tables_can_be_made(connection: Connection) -> None:
    Table.metadata.create_all(connection)
    assert set(inspect(connection).get_table_names()) == set(Table.metadata.tables)
    assert _differences(connection) == []
    partial = text("SELECT indexdef FROM pg_indexes WHERE indexname = 'uq_tray_number_live'")
    assert str(connection.execute(partial).scalar()).endswith("= 1)")


def test_the_migrations_make_the_declared_tables(connection: Connection) -> None:
    run_scripts(connection, HEAD)
    assert _differences(connection) == []


def _tray(connection: Connection, *, live: bool) -> None:
    sql = "INSERT INTO tray (number, batch_id, version_id, colour, live) VALUES (101, 1, 1, '', :live)"
    connection.execute(text(sql), {"live": int(live)})


def test_a_migrated_book_keeps_moments_defaults_and_the_partial_index(
    connection: Connection,
) -> None:
    run_scripts(connection, HEAD)
    connection.execute(text("SET LOCAL session_replication_role = replica"))  # no foreign keys
    connection.execute(
        text(
            'INSERT INTO entry (kind, at, written_at, "by", note, chore) VALUES '
            "('jot', 1774751400, 1774751400.25, '', '', '')"
        )
    )
    row = connection.execute(
        text(
            "SELECT to_timestamp(at) AT TIME ZONE 'Europe/Berlin', written_at, clock_in_doubt FROM entry"
        )
    ).one()
    assert (str(row[0]), row[1], row[2]) == ("2026-03-29 04:30:00", 1774751400.25, 0)
    for live in (False, False, True):
        _tray(connection, live=live)
    with pytest.raises(IntegrityError, match="uq_tray_number_live"):
        _tray(connection, live=True)
