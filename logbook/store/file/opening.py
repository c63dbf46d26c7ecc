"""Opening a book's file for use."""

from __future__ import annotations

from pathlib import Path

from logbook.store.file.book_file import BookFile
from logbook.store.revision import HEAD


def opened(path: Path) -> BookFile:
    """The file, found to be a book; its tables are brought up to date if they are of an older program.

    Raises:
        NoBook, NotABook, CannotWrite: as BookFile.check_kind() and upgrade().
    """
    file = BookFile(path)
    revision = file.check_kind()
    if revision != HEAD:
        from logbook.store.file.upgrade import upgrade

        upgrade(file, revision)
    file.was_there = True
    return file
