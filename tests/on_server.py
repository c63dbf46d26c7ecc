"""Books of the tests on a PostgreSQL server, where LOGBOOK_TEST_POSTGRES names one and --server is said."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from typing import Any

import psycopg
import pytest

from logbook.actions.book import Book, open_book
from logbook.clock import Clock
from logbook.store.rows import Rows
from logbook.store.server.address import Address, address_of, connect
from logbook.store.server.link import spelled
from logbook.store.server.server_book import ServerBook

SERVER = os.environ.get("LOGBOOK_TEST_POSTGRES", "").replace("+psycopg", "")

_KEEP = """
CREATE SCHEMA keep;
DO $$ DECLARE t text; BEGIN
  FOR t IN SELECT relname FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace LOOP
    EXECUTE format('CREATE TABLE keep.%I AS TABLE public.%I', t, t);
  END LOOP;
END $$;
CREATE FUNCTION keep.put_back() RETURNS void LANGUAGE plpgsql AS $$ DECLARE t text; s text; BEGIN
  SET LOCAL session_replication_role = replica;
  FOR t IN SELECT relname FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace LOOP
    EXECUTE format('DELETE FROM public.%I', t);
    EXECUTE format('INSERT INTO public.%I SELECT * FROM keep.%I', t, t);
    IF EXISTS (SELECT FROM pg_attribute WHERE attrelid = ('public.' || quote_ident(t))::regclass AND attname = 'id')
    THEN
      s := pg_get_serial_sequence('public.' || quote_ident(t), 'id');
      IF s IS NOT NULL THEN
        EXECUTE format('SELECT setval(%L, coalesce(max(id), 1), max(id) IS NOT NULL) FROM public.%I', s, t);
      END IF;
    END IF;
  END LOOP;
END $$;
"""
"""A copy of all rows beside them, and what puts it back: quicker than a database for each test."""


class Databases:
    """The databases of one worker: one whose rows are put back for each test, and more where it asks."""

    def __init__(self) -> None:
        self.worker = f"{os.environ.get('PYTEST_XDIST_WORKER', 'alone')}_{os.getpid()}"
        self.made: list[str] = []
        self.books: list[Book] = []
        self.first: Address | None = None
        self.count = 0

    def new(self) -> Address:
        """The address of a new, empty database."""
        self.count += 1
        name = f"test_{self.worker}_{self.count}"
        self._ask(f'CREATE DATABASE "{name}" TEMPLATE template0')
        self.made.append(name)
        return address_of(f"{SERVER.rpartition('/')[0]}/{name}")

    def book(self, fill: Callable[[Address], Book], clock: Clock, by: str) -> Book:
        """A book like the first, which is filled once; a test's first book is always the same one's rows."""
        if self.first is None:
            self.first = self.new()
            closed(fill(self.first))
            with connect(self.first, 15) as connection:
                connection.execute(_KEEP)
        again = not self.books
        if again:
            with connect(self.first, 15) as connection:
                connection.execute("SELECT keep.put_back()")
            where = self.first
        else:
            where = self.new()
            closed(fill(where))
        self.books.append(open_book(where, clock, by))
        return self.books[-1]

    def drop(self) -> None:
        """Let go of the books of a test, and of their databases but for the first."""
        while self.books:
            closed(self.books.pop())
        while len(self.made) > 1:
            self._drop(self.made.pop())

    def end(self) -> None:
        """Take the first away too."""
        self.drop()
        while self.made:
            self._drop(self.made.pop())

    def _drop(self, name: str) -> None:
        self._ask(f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')

    def _ask(self, sql: str) -> Any:
        with connect(address_of(SERVER), 15) as connection:
            connection.execute(sql)


def closed(book: Book) -> None:
    """Let go of a book's connections."""
    if isinstance(book.file, ServerBook):
        book.file.close()


_MARKS = re.compile(r"%s|%\((\w+)\)s|%%")
_FILES_ALONE = re.compile(
    r"\s*(PRAGMA|EXPLAIN|BEGIN|COMMIT|ROLLBACK|CREATE|DROP|ATTACH|VACUUM)"
    r"|(?s:.*)(entry_index|pragma_|sqlite_|alembic_version|typeof|GLOB|copy\.|main\.)"
)
"""What only a file is told."""


class Heard:
    """A file's connection whose statements are noted."""

    def __init__(self, connection: Any, noted: set[str]) -> None:
        self._connection, self._noted = connection, noted

    def execute(self, sql: str, *values: Any) -> Any:
        self._noted.add(sql)
        return self._connection.execute(sql, *values)

    def executemany(self, sql: str, *rows: Any) -> Any:
        self._noted.add(sql)
        return self._connection.executemany(sql, *rows)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._connection, name)


class Statements:
    """The statements that tests put to files, each prepared once on the server too."""

    def __init__(self, address: Address) -> None:
        self.connection = connect(address, 15)
        self.noted: set[str] = set()
        self._taken: set[str] = set()

    def listen(self, patch: pytest.MonkeyPatch) -> None:
        """Note what every reading and writing asks from now on."""
        begin, noted = Rows.__init__, self.noted

        def heard(rows: Rows, connection: Any) -> None:
            begin(rows, connection)
            if rows.dialect == "sqlite" and not isinstance(connection, Heard):
                rows.connection = Heard(connection, noted)

        patch.setattr(Rows, "__init__", heard)

    def check(self) -> None:
        """Prepare what is new; fails with the first statement that the server doesn't take."""
        new, self._taken = self.noted - self._taken, self._taken | self.noted
        for sql in new:
            if not _FILES_ALONE.match(sql):
                names: list[str] = []
                said = _MARKS.sub(lambda mark, names=names: _mark(mark, names), spelled(sql))  # type: ignore[misc]
                try:
                    self.connection.execute(f"PREPARE tried AS {said}")
                except (psycopg.errors.UndefinedTable, psycopg.errors.UndefinedColumn):
                    continue  # of an older revision; SQLite has taken the name
                except psycopg.Error as fault:
                    pytest.fail(f"PostgreSQL doesn't take this: {fault}\n{sql}")
                self.connection.execute("DEALLOCATE tried")


def _mark(mark: re.Match[str], names: list[str]) -> str:
    if mark[0] == "%%":
        return "%"
    if mark[1] is None or mark[1] not in names:
        names.append(mark[1] or "")
    return f"${names.index(mark[1]) + 1 if mark[1] else len(names)}"
