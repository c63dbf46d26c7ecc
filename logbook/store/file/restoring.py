"""Putting a copy back in a book's place, and what that would lose."""

import os
import shutil
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from logbook.paths import private_folder, sync
from logbook.store.file.book_file import BookFile, connect_file
from logbook.store.file.copies import (
    TAILS,
    Progress,
    copy_file,
    give_name,
    new_file,
    unfinished_copy,
)
from logbook.store.file.faults import FAULTS, CannotWrite, Damaged, NotABook, fault_words
from logbook.store.file.health import dangling_rows, integrity_faults, looking, table_names
from logbook.store.file.opening import known_revisions
from logbook.store.revision import PARTED, RENAMED
from logbook.store.rows import maybe_moment
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class Contents:
    """How many entries a book holds and when the newest of them was written."""

    entries: int
    newest: datetime | None


@dataclass(frozen=True, slots=True)
class Loss:
    """What a book holds that a copy does not: entries, from when to when, and rows by table."""

    entries: int
    first: datetime | None
    last: datetime | None
    newest_ids: tuple[int, ...]
    rows: dict[str, int]


def check_copy(path: Path, name: Path | None = None) -> Contents:
    """What is in a file, which must be a whole book that this program knows; `name` is said for it.

    Raises:
        Refused: it is not there, no book, of a newer program, or damaged.
    """
    name = name or path
    try:
        revision = BookFile(path).check_kind()
    except NotABook as fault:
        raise NotABook(str(fault).replace(str(path), str(name))) from fault
    if revision not in known_revisions():
        raise Refused(f"The copy {name} was made by a newer logbook; update the program first.")
    if integrity_faults(path, alone=name != path):
        raise Damaged(f"The copy {name} is itself damaged; use an older one.")
    try:
        with looking(path) as connection:
            if dangling_rows(connection):
                raise Damaged(f"The copy {name} has rows that point to nothing; use another.")
            return contents(connection)
    except FAULTS as fault:
        raise fault_words(fault, path) from fault


def contents(connection: sqlite3.Connection) -> Contents:
    """How much is in a book."""
    entries = connection.execute("SELECT count(*) FROM entry").fetchone()[0]
    row = connection.execute("SELECT written_at FROM entry ORDER BY id DESC LIMIT 1").fetchone()
    return Contents(entries, maybe_moment(row[0]) if row else None)


_OTHER = """
FROM main.entry e LEFT JOIN copy.entry c ON c.id = e.id AND CAST(e.written_at AS INTEGER) =
     CAST(CASE typeof(c.written_at) WHEN 'text' THEN strftime('%s', substr(c.written_at, 1, 19))
          ELSE c.written_at END AS INTEGER)
     AND c.kind = e.kind AND c."by" = e."by" AND c.note = e.note
WHERE c.id IS NULL
"""
"""The entries that a copy has not, or not so; in a copy of an older revision a moment is a text."""


def loss_of(present: Path, copy: Path) -> Loss | None:
    """Compare a book with a copy of it; None where the book is too damaged to be read."""
    try:
        with looking(present) as connection:
            connection.execute("ATTACH ? AS copy", (f"{copy.absolute().as_uri()}?mode=ro",))
            entries, first, last = connection.execute(
                f"SELECT count(*), min(e.written_at), max(e.written_at) {_OTHER}"
            ).fetchone()
            newest = connection.execute(
                f"SELECT e.id {_OTHER} ORDER BY e.id DESC LIMIT 20"
            ).fetchall()
            rows = {
                table: count
                for table in table_names(connection)
                if table not in ("entry", "closed_day") and (count := _missing(connection, table))
            }
    except FAULTS as fault:
        if "locked" in str(fault):
            raise fault_words(fault, present) from fault
        return None
    ids = tuple(row[0] for row in reversed(newest))
    return Loss(entries, maybe_moment(first), maybe_moment(last), ids, rows)


def _missing(connection: sqlite3.Connection, table: str) -> int:
    columns = connection.execute(f'PRAGMA main.table_info("{table}")').fetchall()
    keys = [row[1] for row in columns if row[5]] or [row[1] for row in columns]
    older = next((old for old, new in RENAMED.items() if new == table), table)
    pragma = 'PRAGMA copy.table_info("{}")'
    named = [name for name in (table, older) if connection.execute(pragma.format(name)).fetchall()]
    if not named:
        key, whole = PARTED.get(table, ("", ""))
        new = f' WHERE "{key}" NOT IN (SELECT id FROM copy."{whole}")' if key else ""
        count = connection.execute(f'SELECT count(*) FROM main."{table}"{new}').fetchone()[0]
        return int(count)
    names = ", ".join(f'"{key}"' for key in keys)
    row = connection.execute(
        f'SELECT count(*) FROM (SELECT {names} FROM main."{table}" '
        f'EXCEPT SELECT {names} FROM copy."{named[0]}")'
    ).fetchone()
    return int(row[0])


def put_back(copy: Path, book: Path, aside: Path, progress: Progress | None = None) -> None:
    """Put a checked copy of `copy` in a book's place and keep the present file as `aside`.

    There is a whole book at the path at every moment. Who reads meanwhile sees the present one to
    the end; who wants to write is told so by SQLite and has written nothing.

    Raises:
        Refused: the copy is not whole, there is no room, or another program keeps the book.
    """
    private_folder(book.parent)
    with unfinished_copy(copy, book, progress) as fresh:
        if not book.exists():
            _put_tails_aside(book, aside)
            give_name(fresh, book)
            return
        with closing(connect_file(book)) as holder:
            _hold_off_writers(holder, book)
            _keep_aside(book, aside)
            fresh.replace(book)
            sync(book.parent)


def _hold_off_writers(holder: sqlite3.Connection, book: Path) -> None:
    try:
        if holder.execute("PRAGMA journal_mode=DELETE").fetchone()[0] != "delete":
            raise CannotWrite("Another program has the book open; close it and try again.")
        holder.execute("BEGIN IMMEDIATE")
    except sqlite3.OperationalError as fault:
        raise fault_words(fault, book) from fault
    except sqlite3.DatabaseError:  # damaged beyond opening: nobody else can write it either
        return


def _put_tails_aside(book: Path, aside: Path) -> None:
    for tail in TAILS:
        left = book.with_name(book.name + tail)
        if left.exists():
            left.replace(aside.with_name(aside.name + tail))


def _keep_aside(book: Path, aside: Path) -> None:
    _put_tails_aside(book, aside)
    try:
        os.link(book, aside)
    except FileExistsError as fault:
        raise Refused(f"There is already a file at {aside}; try again.") from fault
    except OSError:  # a file system without links
        _copy_aside(book, aside)
    sync(book.parent)


def _copy_aside(book: Path, aside: Path) -> None:
    try:
        copy_file(book, aside)
    except Damaged:
        new_file(aside)
        shutil.copyfile(book, aside)
        sync(aside)
