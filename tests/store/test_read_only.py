"""A book that can only be read: it shows everything, and writing is refused in one sentence."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.round import the_round
from logbook.clock import FixedClock
from logbook.store.file.faults import CannotWrite
from tests.actions.days import counts, sow_at
from tests.room import moment

NOBODY = 65_534


@contextmanager
def _without_privileges() -> Iterator[None]:
    """Act as nobody while root runs the tests: permissions do not bind root."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def read_only(book: Book) -> Iterator[Path]:
    """Give a copy of a book in a folder that all may read and nobody may write."""
    sow_at(book, "2026-04-01 08:00", 2)
    folder = Path(tempfile.mkdtemp())
    path = folder / "room.book"
    shutil.copyfile(book.file.path, path)
    path.chmod(0o444)
    folder.chmod(0o555)
    yield path
    folder.chmod(0o755)
    shutil.rmtree(folder)


def test_a_read_only_book_shows_all_and_takes_nothing(read_only: Path) -> None:
    before = read_only.read_bytes()
    with _without_privileges():
        book = open_book(read_only, FixedClock(moment("2026-04-02 08:00")), "tester")
        assert [line.chore for line in the_round(book).due] == ["water_look"]
        rows = counts(book)
        with pytest.raises(CannotWrite, match="can only be read: nothing was written"):
            jot(book, [101], "cannot be kept")
        assert counts(book) == rows
    assert read_only.read_bytes() == before
    assert [each.name for each in read_only.parent.iterdir()] == [read_only.name]


def test_a_book_in_a_folder_that_is_closed_to_us_is_not_called_missing(read_only: Path) -> None:
    read_only.parent.chmod(0o600)
    clock = FixedClock(moment("2026-04-02 08:00"))
    with _without_privileges(), pytest.raises(CannotWrite, match="Look at the permissions"):
        open_book(read_only, clock, "tester")


def test_a_folder_that_is_closed_while_the_book_is_open_is_said(read_only: Path) -> None:
    with _without_privileges():
        book = open_book(read_only, FixedClock(moment("2026-04-02 08:00")), "tester")
    read_only.parent.chmod(0o600)
    with _without_privileges():
        with pytest.raises(CannotWrite, match="Look at the permissions"):
            the_round(book)
        with pytest.raises(CannotWrite, match="Look at the permissions"):
            jot(book, [101], "cannot be kept")
