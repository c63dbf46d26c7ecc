"""A book of an older revision comes up to date with every row that it had."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from logbook.actions.book import Book, open_book
from logbook.actions.doing import did, look
from logbook.actions.striking import undo
from logbook.actions.weighing import weigh
from logbook.growing.looks import Look
from logbook.store.creating import new_book_file
from logbook.store.revision import HEAD, revision_of
from logbook.store.upgrade import migrate
from tests.actions.days import sow_at, stand_at

OLDEST = "0001"


def _rows(path: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Give the rows of every table but the one that says the revision."""
    with closing(sqlite3.connect(path)) as connection:
        tables = [
            row[0]
            for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        ]
        return {
            table: connection.execute(f'SELECT * FROM "{table}" ORDER BY 1, 2').fetchall()
            for table in tables
            if table != "alembic_version"
        }


def _lived_in(book: Book) -> None:
    """Fill every table of the oldest revision."""
    sow_at(book, "2026-04-01 08:00", lot="L7", colours=("red",))
    stand_at(book, "2026-04-05 08:00")
    did(book, "weight_off", [101, 102, 103, 104])
    did(book, "water", [101, 102], amount_ml=300)
    look(book, [103], Look(stem_colour="pink", height_mm=20))
    stand_at(book, "2026-04-09 08:00")
    weigh(book, [101], 480)
    weigh(book, [102], 470)
    undo(book)


def test_a_book_of_the_first_revision_keeps_every_row(book: Book, tmp_path: Path) -> None:
    # given a book that was lived in, as the first revision had it
    _lived_in(book)
    old = tmp_path / "old.book"
    with (
        new_book_file(old, OLDEST) as file,
        closing(sqlite3.connect(file.path)) as connection,
        connection,
    ):
        connection.execute("ATTACH ? AS now", (str(book.file.path),))
        for table in _rows(file.path):
            columns = [row[1] for row in connection.execute(f'PRAGMA table_info("{table}")')]
            names = ", ".join(f'"{name}"' for name in columns)
            connection.execute(
                f'INSERT INTO main."{table}" ({names}) SELECT {names} FROM now."{table}"'
            )
    before = _rows(old)
    assert all(before.values()), [table for table, rows in before.items() if not rows]
    # when it is opened
    opened = open_book(old)
    # then it is of this revision, nothing is lost, and a copy of the old one lies beside it
    with opened.reading() as connection:
        assert revision_of(connection) == HEAD
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    after = _rows(old)
    assert {table: [row[: len(before[table][0])] for row in after[table]] for table in before} == (
        before
    )
    copy = old.with_name(f"{old.name}.before-{HEAD}")
    assert _rows(copy) == before


def test_a_step_at_a_time_comes_to_the_same_tables(tmp_path: Path) -> None:
    with new_book_file(tmp_path / "steps.book", OLDEST) as file:
        migrate(file, HEAD)
    with new_book_file(tmp_path / "once.book"):
        pass
    assert _schema(tmp_path / "steps.book") == _schema(tmp_path / "once.book")


def _schema(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return sorted(
            row[0] for row in connection.execute("SELECT sql FROM sqlite_master WHERE sql <> ''")
        )
