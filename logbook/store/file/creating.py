"""Making the file of a new book."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from logbook.paths import private_folder
from logbook.store.file.book_file import BookFile, connect_file
from logbook.store.file.copies import give_name, new_file, remove_quietly, sync
from logbook.store.file.faults import CannotWrite, fault_words
from logbook.store.revision import APPLICATION_ID, HEAD


@contextmanager
def new_book_file(path: Path, revision: str = HEAD) -> Iterator[BookFile]:
    """Make a book's tables in a file beside `path`; name it `path` when the block ends well.

    An older `revision` is for filling the tables as they were then; bring them up to date before
    the block ends.

    Raises:
        Refused: the folder cannot be made or written, or `path` has come to exist meanwhile.
    """
    from logbook.store.file.upgrade import migrate

    unfinished = path.with_name(path.name + ".unfinished")
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
