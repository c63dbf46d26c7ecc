"""The book's file: opening it to read and to write, with sqlite3.

Journal mode DELETE with synchronous EXTRA: an act is acknowledged after the journal, the file and
the folder are synced, so that a pulled plug cannot take it back. WAL would save syncs, but SQLite
before 3.51.3 has a fault that can damage a WAL book when two programs checkpoint at once
(sqlite.org/wal.html#walresetbug), and two people do write here.

Neither needs the mapper, whose loading a small machine feels: only scripts for the tables load it.
"""

import sqlite3
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from logbook.store.columns import Column, read_columns
from logbook.store.file.faults import FAULTS, NoBook, NotABook, closed_to_us, fault_words, gone
from logbook.store.revision import APPLICATION_ID, revision_of
from logbook.store.rows import Rows
from logbook.store.writer import Writer
from logbook.text import stored_text
from logbook.ways import Way

PATIENCE_SECONDS = 15.0
TOLD_SECONDS = 1.0
SMALL_CACHE = "PRAGMA cache_size=-256"
"""Lets a connection keep 256 kB of the file. One that reads lives for one view or passes over the
file once, and the system keeps its pages too: SQLite's 2 MB would only leave memory in pieces.
"""


@dataclass(frozen=True, slots=True)
class Patience:
    """How a reader waits while another program writes."""

    brief: bool = False
    """For TOLD_SECONDS only, else for PATIENCE_SECONDS."""
    say: Callable[[str], object] | None = None
    """Told after TOLD_SECONDS that it waits."""


class BookFile:
    """A book's file on disk. Making one touches nothing; see opening."""

    def __init__(self, path: Path, patience: Patience | None = None) -> None:
        self.path = self.where = path
        self.name = str(path)
        self.patience = patience or Patience()
        self._tables: Mapping[str, list[Column]] = {}
        self.was_there = False
        """Whether it was opened before: one that is missing then has gone."""

    @contextmanager
    def reading(self) -> Iterator[Rows]:
        """The rows of one moment of the book; nothing can be written through them."""
        connection = self._connect()
        try:
            yield Rows(connection)
        except FAULTS as fault:
            raise fault_words(fault, self.path, reading=True) from fault
        finally:
            connection.close()

    def _is_there(self) -> bool:
        try:
            return self.path.exists()
        except PermissionError as fault:
            raise closed_to_us(self.path) from fault

    def _connect(self) -> sqlite3.Connection:
        if not self._is_there():
            if self.was_there:
                raise gone(self.path)
            raise NoBook(
                f"There is no book at {self.path} yet. Make one with {Way.BEGIN}, or look at "
                f"the sample with {Way.DEMO}."
            )
        connection = None
        try:
            connection = connect_file(self.path)
            connection.execute("PRAGMA query_only=ON")
            connection.execute("BEGIN")
            self._wait(connection)
            connection.execute(SMALL_CACHE)
        except FAULTS as fault:
            if connection is not None:
                connection.close()
            raise fault_words(fault, self.path, reading=True) from fault
        return connection

    def _wait(self, connection: sqlite3.Connection) -> None:
        """Begin to read: from here on a reader never waits."""
        seconds, locked = min(TOLD_SECONDS, PATIENCE_SECONDS), "PRAGMA busy_timeout={:.0f}"
        connection.execute(locked.format(seconds * 1000))
        try:
            connection.execute("PRAGMA schema_version")
        except sqlite3.OperationalError as fault:
            if self.patience.brief or "locked" not in str(fault):
                raise
            if self.patience.say is not None:
                self.patience.say("Another program is writing to the book; waiting for it.")
            connection.execute(locked.format((PATIENCE_SECONDS - seconds) * 1000))
            connection.execute("PRAGMA schema_version")

    @contextmanager
    def writing(self) -> Iterator[Writer]:
        """One writing transaction: committed and synced at the end, or nothing."""
        if not self._is_there():
            raise gone(self.path)
        try:
            with closing(connect_file(self.path)) as connection:
                connection.execute("PRAGMA foreign_keys=ON")
                connection.execute("PRAGMA synchronous=EXTRA")
                connection.execute("BEGIN IMMEDIATE")
                writer = Writer(connection, self._tables or read_columns(Rows(connection)))
                self._tables = writer.tables
                yield writer
                writer.commit()
        except FAULTS as fault:
            raise fault_words(fault, self.path) from fault

    def stamp(self) -> tuple[int, int, int] | None:
        """What differs when the file was written; None when it is not in its place."""
        try:
            facts = self.path.stat()
        except OSError:
            return None
        return facts.st_mtime_ns, facts.st_size, facts.st_ino

    def check_kind(self) -> str | None:
        """The revision of the file, which is looked at whether it is a book.

        The file is only ever read through SQLite: closing another handle on it would drop the
        locks that this program's other connections hold (sqlite.org/howtocorrupt.html, 2.2).

        Raises:
            NoBook: there is no such file.
            NotABook: it is a folder, no database, or another program's database.
            CannotWrite: its folder may not be looked into.
        """
        if self._is_there() and self.path.is_dir():
            raise NotABook(
                f"{self.path} is a folder; name a file in it, like {self.path}/room.book."
            )
        if not self._is_there():
            with self.reading():
                pass
        if self.path.stat().st_size == 0:
            raise NotABook(f"{self.path} isn't a book: the file is empty.")
        try:
            with self.reading() as rows:
                mark = rows.value("PRAGMA application_id")
                revision = revision_of(rows.connection)
        except NotABook as fault:
            if "not a database" in str(fault.__cause__):
                if self.path.suffix == ".xz":
                    raise NotABook(
                        f"{self.path} is packed. Look into it with "
                        f"{Way.RESTORE_DRY.of(self.path)}, "
                        f"go back to it with {Way.RESTORE_COPY.of(self.path)}, or unpack it "
                        "(`xz -dk`) and name what comes out."
                    ) from fault
                raise NotABook(
                    f"{self.path} isn't a book: it is not a database of this program."
                ) from fault
            raise
        if mark != APPLICATION_ID:
            raise NotABook(f"{self.path} is a database, but not a book of this program.")
        return revision


def connect_file(path: Path) -> sqlite3.Connection:
    """Connect to a file that is there; SQLite never makes an empty one in its stead.

    Where the file or its disk is write-protected, SQLite gives a connection that reads. Text comes
    out without marks that could harm a terminal, whoever wrote it.
    """
    connection = sqlite3.connect(
        f"file:{quote(str(path.absolute()))}?mode=rw", uri=True, timeout=PATIENCE_SECONDS,
        isolation_level=None, check_same_thread=False,
    )  # fmt: skip
    connection.text_factory = stored_text
    return connection
