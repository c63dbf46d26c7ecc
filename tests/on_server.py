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


class Databases:
    """The databases of one worker: a template with a book, and a copy of it for each test."""

    def __init__(self) -> None:
        self.worker = f"{os.environ.get('PYTEST_XDIST_WORKER', 'alone')}_{os.getpid()}"
        self.made: list[str] = []
        self.books: list[Book] = []
        self.template = ""

    def new(self, template: str = "template0") -> Address:
        """The address of a new database, empty or like a template."""
        name = f"test_{self.worker}_{len(self.made)}"
        self._ask(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
        self.made.append(name)
        return address_of(f"{SERVER.rpartition('/')[0]}/{name}")

    def book(self, fill: Callable[[Address], Book], clock: Clock, by: str) -> Book:
        """A book like the template, which is filled once."""
        if not self.template:
            address = self.new()
            self.template = self.made[-1]
            closed(fill(address))
        self.books.append(open_book(self.new(self.template), clock, by))
        return self.books[-1]

    def drop(self) -> None:
        """Take all of them away, but for the template."""
        while self.books:
            closed(self.books.pop())
        for name in self.made:
            if name != self.template:
                self._ask(f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')
        self.made = [self.template] if self.template else []

    def end(self) -> None:
        """Take the template away too."""
        self.drop()
        if self.template:
            self._ask(f'DROP DATABASE IF EXISTS "{self.template}" WITH (FORCE)')

    def _ask(self, sql: str) -> Any:
        with connect(address_of(SERVER), 15) as connection:
            connection.execute(sql)


def closed(book: Book) -> None:
    """Let go of a book's connections."""
    if isinstance(book.file, ServerBook):
        book.file.close()
