"""Books that many tests begin with: each is made once in a process, and every test gets a copy."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import wraps
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Concatenate, ParamSpec, cast

import pytest

from logbook.actions.book import Book, open_book
from logbook.clock import FixedClock
from logbook.store.file import opening
from logbook.store.file.book_file import BookFile

EMPTY = 4096
"""Bytes of a file with no tables, at the most."""
Rest = ParamSpec("Rest")
Maker = Callable[Concatenate[Path, Rest], Book]


def made_once(make: Maker[Rest]) -> Maker[Rest]:
    """Let a function that makes a book in a folder make it only once for the same arguments."""
    kept: dict[object, tuple[str, bytes, datetime, str]] = {}

    @wraps(make)
    def give(folder: Path, *args: Rest.args, **kwargs: Rest.kwargs) -> Book:
        wanted = (args, tuple(sorted(kwargs.items())))
        if wanted not in kept:
            with TemporaryDirectory() as aside:
                made = make(Path(aside), *args, **kwargs)
                path = made.file.path
                kept[wanted] = (path.name, path.read_bytes(), made.clock.now(), made.by)
        name, content, now, by = kept[wanted]
        copy = folder / name
        copy.touch(0o600)
        copy.write_bytes(content)
        return open_book(copy, FixedClock(now), by)

    return cast("Maker[Rest]", give)


def make_tables_once(patch: pytest.MonkeyPatch) -> None:
    """Let the scripts of a revision fill an empty file once; every later one gets the same bytes."""
    migrate, kept = opening.migrate, dict[tuple[str, bytes], bytes]()

    def filled(book: BookFile, target: str, before: Callable[[], None] | None = None) -> None:
        wanted = (target, book.path.read_bytes())
        if before is None and wanted in kept:
            book.path.write_bytes(kept[wanted])
            return
        migrate(book, target, before)
        if len(wanted[1]) <= EMPTY:
            kept[wanted] = book.path.read_bytes()

    patch.setattr(opening, "migrate", filled)
