"""Making the file of a new book."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from logbook.store.book_file import BookFile
from logbook.store.copies import new_file, sync_file, sync_folder
from logbook.store.faults import CannotWrite
from logbook.store.revision import APPLICATION_ID, HEAD
from logbook.text import Refused


@contextmanager
def new_book_file(path: Path, revision: str = HEAD) -> Iterator[BookFile]:
    """Make a book's tables in a file beside `path`; name it `path` when the block ends well.

    An older `revision` is for filling the tables as they were then; bring them up to date before
    the block ends.

    Raises:
        Refused: the folder cannot be made or written, or `path` has come to exist meanwhile.
    """
    from logbook.store.upgrade import migrate

    unfinished = path.with_name(path.name + ".unfinished")
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        new_file(unfinished)
        file = BookFile(unfinished)
        with file.engine().connect() as connection:
            raw = connection.connection.dbapi_connection
            assert raw is not None  # noqa: S101 - a live connection has one
            raw.execute(f"PRAGMA application_id={APPLICATION_ID}")
        migrate(file, revision)
        yield file
        sync_file(unfinished)
        try:
            os.link(unfinished, path)
        except FileExistsError as fault:
            raise Refused(f"There is already a file at {path}; it was not touched.") from fault
        except OSError:
            unfinished.replace(path)
        sync_folder(path.parent)
    except OSError as fault:
        raise CannotWrite(f"The book {path} cannot be made: {fault.strerror}.") from fault
    finally:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)
