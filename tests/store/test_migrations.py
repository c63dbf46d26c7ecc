"""The migrations in the package make exactly the tables that the program writes."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from importlib import import_module
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from logbook.actions.book import Book, open_book
from logbook.store.file.book_file import BookFile
from logbook.store.file.copies import copy_file
from logbook.store.file.faults import NotABook
from logbook.store.file.opening import known_revisions, make_engine
from logbook.store.revision import APPLICATION_ID, HEAD, revision_of
from logbook.store.rows import moment, stored
from logbook.store.search import INDEX
from logbook.store.tables import Table


def test_the_revision_that_the_program_writes_is_the_scripts_newest() -> None:
    assert known_revisions()[-1] == HEAD


def test_a_new_book_says_what_it_is(book: Book) -> None:
    with book.reading() as reading:
        assert revision_of(reading.connection) == HEAD
        assert reading.row("PRAGMA application_id") == (APPLICATION_ID,)
        assert reading.rows("PRAGMA foreign_key_check") == []
        assert reading.rows("PRAGMA integrity_check") == [("ok",)]


def test_the_migrated_tables_are_the_declared_ones(book: Book) -> None:
    with make_engine(book.file.path).connect() as connection:
        context = MigrationContext.configure(
            connection,
            opts={
                "compare_type": True,
                "render_as_batch": True,
                "include_name": lambda name, kind, _: kind != "table" or not name.startswith(INDEX),
            },
        )
        assert compare_metadata(context, Table.metadata) == []


def test_a_table_with_a_key_of_several_columns_keeps_its_rows_once(book: Book) -> None:
    """In the file as in the models; and an index of entries has only those that say something."""
    declared = {
        name: not table.dialect_options["sqlite"]["with_rowid"]
        for name, table in Table.metadata.tables.items()
    }
    assert declared == {
        name: len(table.primary_key.columns) > 1 for name, table in Table.metadata.tables.items()
    }
    with book.reading() as reading:
        made: dict[str, str] = dict(
            reading.rows("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL")
        )
    assert {name: made[name].rstrip().endswith("WITHOUT ROWID") for name in declared} == declared
    assert [name for name, sql in made.items() if name.startswith("ix_entry") and "WHERE" in sql] == [
        "ix_entry_place_id", "ix_entry_strikes_id", "ix_entry_act_id",
    ]  # fmt: skip


@pytest.mark.parametrize("text", [
    "2026-04-14 07:30:00.000000", "2026-04-14 07:30:00.999999", "1969-12-31 23:59:59.250000",
    "2026-04-14 07:30:00", "2026-12-31 23:59:59.999001",
])  # fmt: skip
def test_a_moment_that_was_a_text_is_the_same_in_seconds(text: str) -> None:
    seconds = import_module("logbook.store.migrations.versions.0015_thinner_rows")._seconds
    with closing(sqlite3.connect(":memory:")) as connection:
        (kept,) = connection.execute(
            f"SELECT {seconds('at')} FROM (SELECT ? AS at)", (text,)
        ).fetchone()
    assert moment(kept) == moment(text)
    assert type(kept) is type(stored(moment(text)))


def _set_revision(path: Path, revision: str) -> None:
    connection = sqlite3.connect(path)
    connection.execute("UPDATE alembic_version SET version_num = ?", (revision,))
    connection.commit()
    connection.close()


def test_a_newer_book_is_refused_and_not_touched(book: Book) -> None:
    path = book.file.path
    _set_revision(path, "9999")
    before = path.read_bytes()
    with pytest.raises(NotABook, match=r"newer logbook \(revision 9999; this one knows up to"):
        open_book(path)
    assert path.read_bytes() == before
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_a_book_without_tables_is_none(tmp_path: Path) -> None:
    path = tmp_path / "empty.book"
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA application_id={APPLICATION_ID}")
    connection.execute("CREATE TABLE something (x)")
    connection.commit()
    connection.close()
    with pytest.raises(NotABook, match="does not say which revision"):
        open_book(path)


def test_a_copy_is_whole_and_checked(book: Book, tmp_path: Path) -> None:
    target = tmp_path / "copy.book"
    copy_file(book.file.path, target)
    assert BookFile(target).check_kind() == HEAD
    assert open_book(target).about == book.about
    assert [each.name for each in tmp_path.iterdir() if "unfinished" in each.name] == []
