"""Bringing a book's tables to this program's revision, whole or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from logbook.store.copies import copy_file
from logbook.store.faults import NotABook
from logbook.store.revision import HEAD

if TYPE_CHECKING:
    from alembic.config import Config
    from sqlalchemy import Connection

    from logbook.store.book_file import BookFile

MIGRATIONS = Path(__file__).parent / "migrations"


def alembic_config() -> Config:
    """Give Alembic's settings for the scripts inside the package."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    return config


def known_revisions() -> list[str]:
    """Give the revisions that this program knows, oldest first."""
    from alembic.script import ScriptDirectory

    scripts = ScriptDirectory.from_config(alembic_config())
    return [script.revision for script in reversed(list(scripts.walk_revisions()))]


def upgrade(book: BookFile, revision: str | None) -> None:
    """Upgrade a book from an older revision, a checked copy laid beside it first.

    Raises:
        NotABook: the book is of a newer program, or the result would break a foreign key.
    """
    if revision is None:
        raise NotABook(f"{book.path} has none of a book's tables; the file was not touched.")
    if revision not in known_revisions():
        raise NotABook(
            f"The book {book.path} was written by a newer logbook (revision {revision}; this one "
            f"knows up to {HEAD}). Update the program; the book was not touched."
        )
    copy_file(book.path, book.path.with_name(f"{book.path.name}.before-{HEAD}"))
    migrate(book, HEAD)


def migrate(book: BookFile, target: str) -> None:
    """Run the scripts up to `target` in one transaction, foreign keys off, then checked."""
    engine = book.engine()
    with engine.connect() as connection:
        raw = connection.connection.dbapi_connection
        assert raw is not None  # noqa: S101 - a live connection has one
        raw.execute("PRAGMA foreign_keys=OFF")
        with connection.begin():
            run_scripts(connection, target)
            broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
            if broken:
                raise NotABook(
                    f"The book {book.path} could not be brought up to date: {len(broken)} rows "
                    "point to nothing. It was left as it was."
                )


def run_scripts(connection: Connection, target: str) -> None:
    """Let Alembic upgrade an open connection, inside the caller's transaction."""
    from alembic import command

    config = alembic_config()
    config.attributes["connection"] = connection
    command.upgrade(config, target)
