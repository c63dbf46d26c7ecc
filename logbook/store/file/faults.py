"""What the database complains of, as sentences for the grower."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from logbook.text import Refused


class NoBook(Refused):
    """There is no book at the path that was asked for."""


class NotABook(Refused):
    """The file is there but is no book that this program can read."""


class Newer(NotABook):
    """The book was written by a newer program."""


class Damaged(NotABook):
    """The file is a book, but what it says on the disk is no longer what was written."""


class CannotWrite(Refused):
    """The book could not be written; nothing of the act is in it."""


def gone(path: Path) -> NoBook:
    """The sentence for a book that was there and is not any more."""
    return NoBook(
        f"The book is gone from its place, {path}: is its disk or stick still there? Nothing was "
        "written; what you typed is still here."
    )


def closed_to_us(path: Path) -> CannotWrite:
    """The sentence for a book that may not be opened."""
    return CannotWrite(
        f"The book {path} cannot be opened: nothing was written. Look at the permissions of the "
        "file and its folder."
    )


_DAMAGE = ("malformed", "not a database", "could not decode", "can't decode")
FAULTS = (sqlite3.Error, UnicodeDecodeError)
"""What reading a file can raise; the second where a damaged file spoils SQLite's own complaint."""


def fault_words(fault: Exception, path: Path) -> Refused:
    """The sentence for a fault of SQLite."""
    words = str(fault).casefold()
    if "full" in words:
        return CannotWrite(
            f"The disk is full: nothing was written to {path.name}. Make room and try again."
        )
    if "readonly" in words or "read-only" in words:
        return CannotWrite(
            f"The book {path} may only be read: nothing was written. Look at the permissions of "
            "the file and its folder."
        )
    if "locked" in words or "busy" in words:
        return CannotWrite(
            "Another program has been writing to the book for more than 15 seconds: nothing was "
            "written. Try again."
        )
    if any(sign in words for sign in _DAMAGE):
        return Damaged(f"The book {path} is damaged. Leave it as it is.")
    if "no such table" in words or "no such column" in words:
        return NotABook(f"{path} is not a book of this program.")
    if "unable to open" in words:
        if not path.is_file():
            return gone(path)
        return closed_to_us(path)
    if "i/o" in words:
        return CannotWrite(
            f"The disk that the book {path} lies on does not answer as it should: nothing was "
            "written. Look at the card, its plug and its power, then try again."
        )
    return CannotWrite(f"The book {path} could not be used ({fault}); nothing was written.")
