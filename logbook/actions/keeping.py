"""Copies of the book: by hand, one a day, and the newest good one when it is needed."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.paths import private_folder
from logbook.settings import Settings, read_settings
from logbook.store.faults import FAULTS, Damaged, Newer, NotABook
from logbook.text import Refused

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.store.copies import Progress


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy: where it is, when it was made (UTC, by the file), its bytes.

    `day` is the day of a daily copy, which the rotation may remove; None for every other copy.
    """

    path: Path
    made: datetime
    size: int
    day: date | None = None


def own_settings(settings: Settings | None) -> Settings:
    """Give the settings, read from the file where none are given."""
    return read_settings() if settings is None else settings


def copies_folder(book: Path, settings: Settings | None = None) -> Path:
    """Give the folder of a book's copies: "copies" beside it, or its own in the settings' one."""
    named = own_settings(settings).copies
    if not named:
        return book.absolute().parent / "copies"
    key = hashlib.sha256(os.fsencode(book.resolve())).hexdigest()[:8]
    return Path(named).expanduser() / f"{book.stem}-{key}"


def _name(book: Path, when: str) -> str:
    return f"{book.stem}-{when}{book.suffix or '.book'}"


def list_copies(book: Path, settings: Settings | None = None) -> list[Copy]:
    """Give the copies of a book, newest first: daily, by hand, and from before an update."""
    folder = copies_folder(book, settings)
    named = re.compile(
        re.escape(book.stem) + r"-(\d{4}-\d\d-\d\d)(T\d{6})?" + re.escape(book.suffix or ".book")
    )
    found = []
    try:
        for path in folder.iterdir() if folder.is_dir() else ():
            match = named.fullmatch(path.name)
            if match is not None:
                found.append(_copy(path, None if match[2] else _day(match[1])))
        updates = re.compile(re.escape(book.name) + r"\.before-\w+")
        beside = book.absolute().parent.glob("*")
        found += [_copy(path, None) for path in beside if updates.fullmatch(path.name)]
    except OSError as fault:
        raise Refused(f"The copies in {folder} cannot be listed: {fault.strerror}.") from fault
    return sorted(found, key=lambda copy: (copy.made, copy.path.name), reverse=True)


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _copy(path: Path, day: date | None) -> Copy:
    facts = path.stat()
    made = datetime.fromtimestamp(int(facts.st_mtime), UTC)
    return Copy(path, made, facts.st_size, day)


def named_copy(book: Path, given: Path, settings: Settings | None = None) -> Path:
    """Give the file of a copy that is named by its path, or by its name alone among the copies."""
    among = copies_folder(book, settings) / given.name
    return among if not given.exists() and len(given.parts) == 1 and among.exists() else given


def copy_book(
    book: Book,
    target: Path | None = None,
    settings: Settings | None = None,
    progress: Progress | None = None,
) -> Copy:
    """Make a checked, synced copy of an open book; others may read and write meanwhile.

    `target` is a file, or a folder to put it in; without it the copy goes to the copies' folder.

    Raises:
        Refused: there is a file of that name, no such folder, no room, or the book is damaged.
    """
    from logbook.growing.days import local

    name = _name(book.file.path, f"{local(book.now(), book.zone):%Y-%m-%dT%H%M%S}")
    if target is None:
        target = copies_folder(book.file.path, settings) / name
    elif target.is_dir():
        target /= name
    elif not target.parent.is_dir():
        raise Refused(
            f"There is no folder {target.parent}. If it is on a stick, plug that in; nothing was "
            "copied."
        )
    if target.exists():
        raise Refused(f"There is already a file at {target}; it was not touched.")
    return _make(book, target, None, progress)


def _make(book: Book, target: Path, day: date | None, progress: Progress | None) -> Copy:
    from logbook.store.copies import give_name, unfinished_copy

    try:
        private_folder(target.parent)
    except OSError as fault:
        raise Refused(
            f"The folder {target.parent} cannot be made: {fault.strerror}. Name another."
        ) from fault
    with naming_copies(book.file.path), unfinished_copy(book.file.path, target, progress) as made:
        give_name(made, target)
    return _copy(target, day)


def daily_copy(
    book: Book, settings: Settings | None = None, progress: Progress | None = None
) -> Copy | None:
    """Make today's copy unless it is there, then remove the daily copies that are not to stay.

    None where there was nothing to make. Only daily copies are ever removed, and only after a new
    one was checked and synced.
    """
    from logbook.store.copies import remove_quietly
    from logbook.store.rotation import Keeping, days_kept

    settings = own_settings(settings)
    if settings.keep_daily == 0:
        return None
    today = book.today()
    target = copies_folder(book.file.path, settings) / _name(book.file.path, today.isoformat())
    if target.exists():
        return None
    copy = _make(book, target, today, progress)
    dated = {each.day: each.path for each in list_copies(book.file.path, settings) if each.day}
    keeping = Keeping(settings.keep_daily, settings.keep_weekly, settings.keep_monthly)
    for day in dated.keys() - days_kept(dated.keys(), keeping) - {today}:
        remove_quietly(dated[day])
    return copy


def newest_good_copy(book: Path, settings: Settings | None = None) -> Copy | None:
    """Give the newest copy that opens and checks out; None where there is none."""
    from logbook.store.book_file import BookFile
    from logbook.store.health import integrity_faults

    for copy in list_copies(book, settings):
        try:
            BookFile(copy.path).check_kind()
            if not integrity_faults(copy.path, quick=True):
                return copy
        except (Refused, *FAULTS):
            continue
    return None


def way_back(book: Path) -> str:
    """Say which copy to go back to, and how."""
    try:
        copy = newest_good_copy(book)
    except Refused:
        return "Go back to a copy with `logbook restore`."
    if copy is None:
        return "There is no good copy beside it; look for one elsewhere before anything else."
    day = copy.day or copy.made.date()
    return (
        f"The newest good copy is {copy.path} ({day:%-d %b %Y}): look into it with "
        f"`logbook --book {copy.path} round`, go back to it with `logbook restore {copy.path}`."
    )


@contextmanager
def naming_copies(book: Path) -> Iterator[None]:
    """Let a sentence about damage end with the newest good copy and the way back to it."""
    try:
        yield
    except NotABook as fault:
        if isinstance(fault, _WithWay | Newer):
            raise
        if isinstance(fault, Damaged) or _has_copies(book):
            raise _WithWay(f"{fault} {way_back(book)}") from fault
        raise


class _WithWay(Damaged):
    pass


def _has_copies(book: Path) -> bool:
    try:
        return book.is_file() and bool(list_copies(book))
    except Refused:
        return False
