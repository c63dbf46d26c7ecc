"""What the database complains of, as sentences for the grower."""

import re
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
        f"The book is gone from its place, {path}: is its disk or USB stick still there? Nothing "
        "was "
        "written; what you typed is still here."
    )


_ACCESS = "nothing was written. Look at the permissions of the file and its folder."


def closed_to_us(path: Path) -> CannotWrite:
    """The sentence for a book that may not be opened."""
    return CannotWrite(f"The book {path} cannot be opened: {_ACCESS}")


FAULTS = (sqlite3.Error, UnicodeDecodeError)
"""What reading a file can raise; the second where a damaged file spoils SQLite's own complaint."""

_SAID: tuple[tuple[str, type[Refused], str], ...] = (
    ("full", CannotWrite,
     "The disk is full: nothing was written to {path.name}. Make room and try again."),
    ("readonly|read-only", CannotWrite,
     f"The book {{path}} can only be read: {_ACCESS}"),
    ("locked|busy", CannotWrite,
     "Another program is still writing to the book{unwritten}. Try again."),
    ("malformed|not a database|could not decode|can't decode", Damaged,
     "The book {path} is damaged. Leave it as it is."),
    ("no such table|no such column", NotABook, "{path} is not a book of this program."),
    ("i/o", CannotWrite,
     ("The disk with the book {path} does not answer as it should{unwritten}. "
      "Look at the card, its plug and its power, then try again.")),
)  # fmt: skip
"""What SQLite complains of, and what is said of it."""


def fault_words(fault: Exception, path: Path, *, reading: bool = False) -> Refused:
    """The sentence for a fault of SQLite, which `reading` met where nothing was to be written."""
    words = str(fault).casefold()
    if "unable to open" in words:
        return closed_to_us(path) if path.is_file() else gone(path)
    for signs, kind, sentence in _SAID:
        if re.search(signs, words):
            return kind(
                sentence.format(path=path, unwritten="" if reading else ": nothing was written")
            )
    return CannotWrite(f"The book {path} could not be used ({fault}); nothing was written.")
