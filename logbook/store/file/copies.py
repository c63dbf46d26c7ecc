"""Copies of a book: made while it is open, checked, synced, then named."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from logbook.paths import sync
from logbook.store.file.book_file import SMALL_CACHE, connect_file
from logbook.store.file.faults import CannotWrite, fault_words
from logbook.store.file.health import integrity_faults
from logbook.store.file.leftovers import leftovers, remove_quietly, unfinished_of
from logbook.store.file.packing import is_packed, pack, size_in, unpack
from logbook.store.file.rooms import nearest_folder, need_room
from logbook.text import Refused

Progress = Callable[[int, int], None]
"""Told how many pages are copied, of how many."""

PAGES_A_STEP = 256
MOST_RESTARTS = 3


def new_file(path: Path) -> None:
    """Make an empty file that only its owner may read; an old one of that name goes."""
    path.unlink(missing_ok=True)
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


TAILS = ("-journal", "-wal", "-shm")
"""What SQLite lays beside a file of a name, and would apply to any other file of that name."""


def give_name(unfinished: Path, target: Path) -> None:
    """Name a finished file, durably, unless something has that name already.

    Raises:
        Refused: there is a file of that name, or the journal of one; it is not touched.
    """
    for tail in TAILS:
        left = target.with_name(target.name + tail)
        if left.exists():
            raise Refused(f"{left} was left by another book; move it away first.")
    try:
        os.link(unfinished, target)
    except FileExistsError as fault:
        raise Refused(f"There is already a file at {target}; it was not touched.") from fault
    except OSError:  # a file system without links
        if target.exists():
            raise Refused(f"There is already a file at {target}; it was not touched.") from None
        unfinished.replace(target)
    sync(target.parent)


def size_of(path: Path) -> int:
    """A book's size in bytes, what lies in its write-ahead log included."""
    log = path.with_name(path.name + "-wal")
    return path.stat().st_size + (log.stat().st_size if log.exists() else 0)


@contextmanager
def unfinished_copy(source: Path, target: Path, progress: Progress | None = None) -> Iterator[Path]:
    """A whole, checked, synced copy of a book that lies beside `target` under another name.

    It is packed where the target's name says so; the source may be a packed copy. The block gives
    it its name; what has no name at the end is removed. Writers are let in between steps; a copy
    that they made begin anew three times holds them off instead.

    Raises:
        Refused: the source cannot be read, there is no room, or the copy does not check out.
    """
    packed = is_packed(target)
    plain = unfinished_of(target.with_suffix("") if packed else target)
    unfinished = unfinished_of(target)
    try:
        for left in leftovers([target.parent]):
            if left.name.startswith((f"{target.name}.", f"{target.stem}.")):
                remove_quietly(left)
        size = size_in(source) if is_packed(source) else size_of(source)
        need_room(target.parent, size + size // 4 * packed)
        new_file(plain)
        if is_packed(source):
            unpack(source, plain)
        else:
            _fill(source, plain, _halved(progress) if packed else progress)
        faults = integrity_faults(plain, alone=True)
        if faults:
            raise fault_words(sqlite3.DatabaseError(f"malformed: {faults[0]}"), source)
        if packed:
            new_file(unfinished)
            pack(plain, unfinished, _halved(progress, after=True))
            remove_quietly(plain)
        sync(unfinished)
        yield unfinished
    except OSError as fault:
        raise CannotWrite(
            f"The copy {target} cannot be made: {fault.strerror}. The book itself is as it was."
        ) from fault
    finally:
        remove_quietly(plain)
        remove_quietly(unfinished)


def _halved(progress: Progress | None, *, after: bool = False) -> Progress | None:
    """Tells of the first half of a work, or of the half `after` it."""
    if progress is None:
        return None
    return lambda done, whole: progress(done + whole * after, 2 * whole)


@contextmanager
def plain_copy(copy: Path, beside: Path) -> Iterator[Path]:
    """The file of a copy; one that is packed is unpacked beside a path while the block lasts."""
    if not is_packed(copy):
        yield copy
        return
    folder = nearest_folder(beside.parent)
    plain = unfinished_of(folder / copy.stem)
    try:
        try:
            need_room(folder, size_in(copy))
            new_file(plain)
            unpack(copy, plain)
        except OSError as fault:
            raise CannotWrite(f"{copy} can't be unpacked in {folder}: {fault.strerror}.") from fault
        yield plain
    finally:
        remove_quietly(plain)


def copy_file(source: Path, target: Path) -> None:
    """Copy a book through SQLite's backup, check the copy, sync it, and only then name it.

    An older copy of that name is replaced in one step.

    Raises:
        Refused: the source cannot be read, there is no room, or the copy does not check out.
    """
    with unfinished_copy(source, target) as unfinished:
        unfinished.replace(target)
        sync(target.parent)


class _Restarted(Exception):  # noqa: N818 - it only ends an attempt
    pass


def _fill(source: Path, unfinished: Path, progress: Progress | None) -> None:
    try:
        with (
            closing(connect_file(source)) as reader,
            closing(sqlite3.connect(unfinished, isolation_level=None)) as writer,
        ):
            writer.execute("PRAGMA synchronous=OFF")
            writer.execute("PRAGMA journal_mode=OFF")  # what fails is thrown away, not rolled back
            reader.execute(SMALL_CACHE)
            writer.execute(SMALL_CACHE)
            try:
                _backup(reader, writer, progress, most_restarts=MOST_RESTARTS)
            except _Restarted:
                reader.execute("BEGIN")
                reader.execute("SELECT count(*) FROM sqlite_schema").fetchone()
                _backup(reader, writer, progress, most_restarts=0)
            writer.execute("PRAGMA journal_mode=DELETE")
    except sqlite3.Error as fault:
        if "full" in str(fault).casefold():
            raise CannotWrite(
                f"The disk became full while the copy was made in {unfinished.parent}. The copy "
                "was removed; make room, or name another disk."
            ) from fault
        raise fault_words(fault, source) from fault


def _backup(
    reader: sqlite3.Connection, writer: sqlite3.Connection, progress: Progress | None, *,
    most_restarts: int,
) -> None:  # fmt: skip
    left, restarts = None, 0

    def after_step(_status: int, remaining: int, total: int) -> None:
        nonlocal left, restarts
        if left is not None and remaining >= left:
            restarts += 1
        left = remaining
        if progress is not None:
            progress(total - remaining, total)
        if most_restarts and restarts >= most_restarts:
            raise _Restarted

    reader.backup(writer, pages=PAGES_A_STEP, progress=after_step, sleep=0.05)
