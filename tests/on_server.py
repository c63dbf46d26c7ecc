"""Books of the tests on a PostgreSQL server, where LOGBOOK_TEST_POSTGRES names one and --server is said."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any

from logbook.actions.book import Book, open_book
from logbook.clock import Clock
from logbook.store.server.address import Address, address_of, connect
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
