"""Opening a book's file, new or old; its tables come to this program's revision, whole or not at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from logbook.paths import private_folder, sync
from logbook.store.file.book_file import BookFile, Patience, connect_file
from logbook.store.file.copies import copy_file, give_name, new_file
from logbook.store.file.faults import CannotWrite, Damaged, Newer, NotABook, fault_words
from logbook.store.file.health import dangling_rows, row_counts
from logbook.store.file.leftovers import remove_quietly, unfinished_of
from logbook.store.revision import APPLICATION_ID, HEAD, RENAMED, revision_of
from logbook.text import Refused

if TYPE_CHECKING:
    from alembic.config import Config
    from sqlalchemy import Connection, Engine

MUCH_FREE = 2**20
"""Bytes; less than that is not worth writing a file anew."""
MIGRATIONS = Path(__file__).parents[1] / "migrations"


def opened(path: Path, patience: Patience | None = None) -> BookFile:
    """The file, found to be a book; its tables are brought up to date if they are of an older program.

    Raises:
        NoBook, NotABook, CannotWrite: as BookFile.check_kind() and upgrade().
    """
    file = BookFile(path, patience)
    revision = file.check_kind()
    if revision != HEAD:
        upgrade(file, revision)
    file.was_there = True
    return file


@contextmanager
def new_book_file(path: Path, revision: str = HEAD) -> Iterator[BookFile]:
    """Make a book's tables in a file beside `path`; name it `path` when the block ends well.

    An older `revision` is for filling the tables as they were then; bring them up to date before
    the block ends.

    Raises:
        Refused: the folder cannot be made or written, or `path` has come to exist meanwhile.
    """
    unfinished = unfinished_of(path)
    try:
        private_folder(path.parent)
        new_file(unfinished)
        file = BookFile(unfinished)
        with closing(connect_file(unfinished)) as connection:
            connection.execute(f"PRAGMA application_id={APPLICATION_ID}")
        migrate(file, revision)
        yield file
        sync(unfinished)
        give_name(unfinished, path)
    except OSError as fault:
        raise CannotWrite(f"The book {path} cannot be made: {fault.strerror}.") from fault
    except sqlite3.Error as fault:
        raise CannotWrite(f"The book {path} cannot be made. {fault_words(fault, path)}") from fault
    except CannotWrite as fault:
        raise CannotWrite(f"The book {path} cannot be made. {fault}") from fault
    finally:
        remove_quietly(unfinished)


def alembic_config() -> Config:
    """Alembic's settings for the scripts inside the package."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    return config


def known_revisions() -> list[str]:
    """The revisions that this program knows, oldest first."""
    from alembic.script import ScriptDirectory

    scripts = ScriptDirectory.from_config(alembic_config())
    return [script.revision for script in reversed(list(scripts.walk_revisions()))]


def check_known(book: Path | str, revision: str | None) -> None:
    """Raise Newer for a book of a newer program, Damaged where its tables were never finished."""
    if revision is None:
        raise Damaged(
            f"The book {book} does not say which revision its tables have: it is damaged. "
            "Leave it as it is."
        )
    if revision != HEAD and revision not in known_revisions():
        raise Newer(
            f"The book {book} was written by a newer logbook (revision {revision}; this one "
            f"knows up to {HEAD}). Update the program; the book was not touched."
        )


def upgrade(book: BookFile, revision: str | None) -> None:
    """Upgrade a book from an older revision, a checked copy laid beside it first.

    Raises:
        Newer: the book was written by a newer program.
        Damaged: its tables were never finished.
        CannotWrite: it could not be brought up to date; it is as it was.
    """
    check_known(book.path, revision)
    try:
        migrate(book, HEAD, before=lambda: copy_file(book.path, before_update(book.path, HEAD)))
    except Refused as fault:
        raise CannotWrite(
            f"The book {book.path} could not be brought up to date and is as it was; keep using "
            f"the version you had before. {fault}"
        ) from fault


def before_update(book: Path, target: str) -> Path:
    """Where the copy lies that is made before a book is brought to revision `target`."""
    return book.with_name(f"{book.name}.before-{target}")


def migrate(book: BookFile, target: str, before: Callable[[], None] | None = None) -> None:
    """Run the scripts up to `target` in one transaction, foreign keys off, then checked.

    `before` is called when the book is locked against other writers and really is older. Nothing
    of the new revision stays unless every script ran, no row points to nothing, and no table has
    fewer rows than before.

    Raises:
        Refused: one of these failed; the book is as it was.
    """
    from sqlalchemy.exc import DBAPIError

    from logbook.store.file.about import describe

    try:
        with make_engine(book.path).connect() as connection:
            raw = connection.connection.dbapi_connection
            assert isinstance(raw, sqlite3.Connection)  # noqa: S101 - a live connection has one
            raw.execute("PRAGMA foreign_keys=OFF")
            with connection.begin():
                if revision_of(raw) == target:  # another program has done it meanwhile
                    return
                if before is not None:
                    before()
                counts = row_counts(raw)
                run_scripts(connection, target)
                _check_rows(raw, counts)
                if target == HEAD:
                    describe(raw)
            _shrink(raw)
    except Refused:
        raise
    except DBAPIError as fault:
        words = fault_words(fault.orig or fault, book.path)
        if isinstance(words, NotABook) and not isinstance(words, Damaged):
            words = CannotWrite(f"A script for the tables failed ({fault.orig}).")
        raise words from fault
    except sqlite3.Error as fault:
        raise fault_words(fault, book.path) from fault
    except Exception as fault:
        raise CannotWrite(f"A script for the tables failed ({type(fault).__name__}).") from fault


def make_engine(path: Path) -> Engine:
    """An engine on a file for what needs SQLAlchemy: one transaction, foreign keys on, fully synced."""
    from sqlalchemy import NullPool, event
    from sqlmodel import create_engine

    engine = create_engine("sqlite://", creator=lambda: connect_file(path), poolclass=NullPool)

    def on_connect(connection: Any, _record: Any) -> None:
        connection.execute("PRAGMA foreign_keys=ON")
        connection.execute("PRAGMA synchronous=EXTRA")

    def on_begin(connection: Any) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")

    event.listen(engine, "connect", on_connect)
    event.listen(engine, "begin", on_begin)
    return engine


def _shrink(raw: sqlite3.Connection) -> None:
    """Give the disk back what a script left free, where that is much; else new rows will fill it."""
    page, pages, free = [
        raw.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("page_size", "page_count", "freelist_count")
    ]
    if free * page > MUCH_FREE and free * 4 > pages:
        with suppress(sqlite3.Error):  # another program reads, or there is no room: it stays large
            raw.execute("VACUUM")


def _check_rows(raw: sqlite3.Connection, before: dict[str, int]) -> None:
    dangling = dangling_rows(raw)
    if dangling:
        words = ", ".join(f"{count:,} of {table}" for table, count in sorted(dangling.items()))
        raise CannotWrite(f"Rows would point to nothing: {words}.")
    after = row_counts(raw)
    fallen = [
        table
        for table, count in before.items()
        if after.get(table, after.get(RENAMED.get(table, ""), 0)) < count
    ]
    if fallen:
        raise CannotWrite(f"Rows would be lost from {', '.join(fallen)}.")


def run_scripts(connection: Connection, target: str) -> None:
    """Let Alembic upgrade an open connection, inside the caller's transaction."""
    from alembic import command

    config = alembic_config()
    config.attributes["connection"] = connection
    command.upgrade(config, target)
