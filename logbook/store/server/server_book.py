"""A book on a server: reading one moment of it, and writing, one writer at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from secrets import token_hex
from threading import Event, Lock, Thread
from typing import Any

from logbook.store.columns import Column, read_columns
from logbook.store.file.book_file import PATIENCE_SECONDS, TOLD_SECONDS, Patience
from logbook.store.file.faults import NoBook, NotABook
from logbook.store.revision import APPLICATION_ID
from logbook.store.rows import Rows
from logbook.store.server.address import Address, connect, driver
from logbook.store.server.faults import gone_words, server_words, unsure_words
from logbook.store.server.link import Link, read_as_the_file
from logbook.store.writer import Writer
from logbook.ways import Way

CHANGED = "logbook_changed"
"""The channel on which a server tells that a book was written to."""
LOCK = f"SELECT pg_advisory_xact_lock({APPLICATION_ID}, to_regnamespace(current_schema())::oid::integer)"
KEPT = 2
"""So many connections wait for their next use."""


class ServerBook:
    """A book on a server. Making one touches nothing.

    Connections are kept for their next use, and each is one caller's till it gives it back.
    """

    def __init__(self, address: Address, patience: Patience | None = None) -> None:
        self.address = self.where = address
        self.path = address.home
        self.name = address.words
        self.patience = patience or Patience()
        self.was_there = False
        self._tables: Mapping[str, list[Column]] = {}
        self._idle: list[Any] = []
        self._lock = Lock()
        self.me = token_hex(8)
        """Who wrote, in what the server tells others."""
        self.told = Event()
        """Set whenever it is heard that another wrote, and when listening begins."""
        self._ears: Thread | None = None
        self._heard: int | None = 0
        self._closed = Event()

    @contextmanager
    def reading(self) -> Iterator[Rows]:
        """The rows of one moment of the book; nothing can be written through them."""
        errors = driver().Error
        try:
            with self._lent("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY") as connection:
                yield Rows(Link(connection))
                connection.execute("ROLLBACK")
        except errors as fault:
            raise server_words(fault, self.address, reading=True) from fault

    @contextmanager
    def writing(self) -> Iterator[Writer]:
        """One writing transaction, alone: committed and synced at the end, or nothing."""
        errors = driver().Error
        try:
            with self._lent("BEGIN ISOLATION LEVEL READ COMMITTED") as connection:
                self._wait(connection)
                link = Link(connection)
                self._tables = self._tables or read_columns(Rows(link))
                yield Writer(link, self._tables)
                self._keep(connection)
        except errors as fault:
            raise server_words(fault, self.address) from fault

    def _keep(self, connection: Any) -> None:
        """Commit. Where the answer is lost the server is asked whether it did."""
        connection.execute("SELECT pg_notify(%s, %s)", (CHANGED, self.me))
        (act,) = connection.execute("SELECT pg_current_xact_id()::text").fetchone()
        try:
            connection.execute("COMMIT")
        except driver().OperationalError as fault:
            if not self._was_kept(act):
                raise gone_words(self.address, reading=False) from fault

    def _was_kept(self, act: str) -> bool:
        sql = "SELECT pg_xact_status(%s::xid8)"
        with suppress(driver().Error), self._lent("") as connection:
            connection.execute("SET statement_timeout = '5s'")
            while (found := connection.execute(sql, (act,)).fetchone()[0]) == "in progress":
                connection.execute("SELECT pg_sleep(0.1)")
            connection.execute("RESET statement_timeout")
            return bool(found == "committed")
        raise unsure_words(self.address)

    @contextmanager
    def _lent(self, begin: str) -> Iterator[Any]:
        """A connection with a transaction begun; it is thrown away where anything goes wrong."""
        with self._lock:
            connection = self._idle.pop() if self._idle else None
        if connection is not None and begin:
            try:
                connection.execute(begin)
            except driver().OperationalError:  # it broke while it waited; nothing was asked yet
                connection.close()
                connection = None
        if connection is None:
            connection = connect(self.address, round(PATIENCE_SECONDS))
            read_as_the_file(connection)
            if begin:
                connection.execute(begin)
        whole = False
        try:
            yield connection
            whole = True
        finally:
            with self._lock:
                keep = whole and not connection.closed and len(self._idle) < KEPT
                if keep:
                    self._idle.append(connection)
            if not keep:
                connection.close()

    def _wait(self, connection: Any) -> None:
        """Wait for whoever writes; say so when it lasts."""
        brief = min(TOLD_SECONDS, PATIENCE_SECONDS)
        for seconds, last in ((brief, self.patience.brief), (PATIENCE_SECONDS - brief, True)):
            connection.execute("SAVEPOINT waiting")
            connection.execute(f"SET LOCAL lock_timeout = '{max(1, round(seconds * 1000))}ms'")
            try:
                connection.execute(LOCK)
            except driver().errors.LockNotAvailable:
                if last:
                    raise
                connection.execute("ROLLBACK TO waiting")
                if self.patience.say is not None:
                    self.patience.say("Another program is writing to the book; waiting for it.")
                continue
            connection.execute("RELEASE waiting")
            return

    def check_kind(self) -> str | None:
        """The revision of the tables, which are looked at whether they are a book's.

        Raises:
            NoBook: there is no such database, or nothing in it yet.
            NotABook: another program's tables are there, or the server takes nobody in.
        """
        with self.reading() as rows:
            names = {name for (name,) in rows.rows(
                "SELECT relname FROM pg_class WHERE relkind = 'r' "
                "AND relnamespace = to_regnamespace(current_schema())")}  # fmt: skip
            if not names:
                raise NoBook(f"There is no book at {self.name} yet. Make one with {Way.BEGIN}.")
            if not {"alembic_version", "entry", "book"} <= names:
                raise NotABook(f"{self.name} is a database, but no book of this program.")
            return str(rows.value("SELECT version_num FROM alembic_version"))

    def stamp(self) -> int | None:
        """What differs when another wrote to the book; None while the server is gone. Never waits."""
        if self._ears is None:
            self._ears = Thread(target=self._listen, daemon=True)
            self._ears.start()
        return self._heard

    def _listen(self) -> None:
        """Hear what others write, in a thread, till the book is closed."""
        count = 0
        while not self._closed.is_set():
            try:
                with connect(self.address, round(PATIENCE_SECONDS)) as connection:
                    connection.execute(f"LISTEN {CHANGED}")
                    count += 1  # till now nobody listened: what was read may be old
                    self._heard = count
                    self.told.set()
                    while not self._closed.is_set():
                        for said in connection.notifies(timeout=TOLD_SECONDS):
                            if said.payload != self.me:
                                count += 1
                                self._heard = count
                                self.told.set()
            except driver().Error:
                self._heard = None
                self._closed.wait(TOLD_SECONDS)

    def close(self) -> None:
        """Let go of all connections."""
        self._closed.set()
        for each in self._idle:
            each.close()
        self._idle = []

    def __del__(self) -> None:
        self.close()
