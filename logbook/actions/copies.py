"""The copies of a book by its path: where they are, the newest good one, and the way back to it."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import ClassVar

from logbook.settings import Settings, read_settings
from logbook.store.file.book_file import BookFile
from logbook.store.file.faults import FAULTS, Damaged, Newer, NotABook, fault_words
from logbook.store.file.health import integrity_faults, read_elsewhere
from logbook.text import Refused, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy: where it is, when it was made (UTC, by the file), its bytes.

    `day` is the day of a daily copy, which the rotation may remove; None for every other copy.
    """

    keys: ClassVar = "copy=path made_at=made bytes=size daily"

    path: Path
    """Its file."""
    made: datetime
    size: int
    day: date | None = None

    @property
    def daily(self) -> bool:
        """Whether it is a daily copy, which the rotation may remove."""
        return self.day is not None


@dataclass(frozen=True, slots=True)
class NoCopy:
    """No copy was made: today's is there."""

    copy: None = None


@dataclass(frozen=True, slots=True)
class Copies:
    """The copies of a book, newest first."""

    copies: tuple[Copy, ...]


def own_settings(settings: Settings | None) -> Settings:
    """The settings, read from the file where none are given."""
    return read_settings() if settings is None else settings


def copies_folder(book: Path, settings: Settings | None = None) -> Path:
    """The folder of a book's copies: "copies" beside it, or its own in the settings' one."""
    named = own_settings(settings).copies
    if not named:
        return book.absolute().parent / "copies"
    key = hashlib.sha256(os.fsencode(book.resolve())).hexdigest()[:8]
    return Path(named).expanduser() / f"{book.stem}-{key}"


def copy_name(book: Path, when: str) -> str:
    """The name of a copy of a book: with the day, or with the moment."""
    return f"{book.stem}-{when}{book.suffix or '.book'}"


def list_copies(book: Path, settings: Settings | None = None) -> list[Copy]:
    """The copies of a book, newest first: daily, by hand, and from before an update."""
    folder = copies_folder(book, settings)
    named = re.compile(
        re.escape(book.stem) + r"-(\d{4}-\d\d-\d\d)(T\d{6})?" + re.escape(book.suffix or ".book")
    )
    try:
        found = [
            copy_at(path, None if match[2] else _day(match[1]))
            for path in (folder.iterdir() if folder.is_dir() else ())
            if (match := named.fullmatch(path.name)) is not None
        ]
        updates = re.compile(re.escape(book.name) + r"\.before-\w+")
        beside = book.absolute().parent.glob("*")
        found += [copy_at(path, None) for path in beside if updates.fullmatch(path.name)]
    except OSError as fault:
        raise Refused(f"The copies in {folder} cannot be listed: {fault.strerror}.") from fault
    return sorted(found, key=lambda copy: (copy.made, copy.path.name), reverse=True)


OLD_COPY = timedelta(days=7)


def newest_elsewhere(book: Path, settings: Settings | None = None) -> datetime | None:
    """When the newest copy on another disk than the book's was made, as far as is known."""
    disk, known = book.stat().st_dev, read_elsewhere(book)
    made = [copy.made for copy in list_copies(book, settings) if copy.path.stat().st_dev != disk]
    return max([*made, *([known] if known else [])], default=None)


def elsewhere_words(
    book: Path, now: datetime, settings: Settings | None = None
) -> tuple[str, bool]:
    """How old the newest copy on another disk is, and whether that is too old or there is none."""
    at = newest_elsewhere(book, settings)
    if at is None:
        return "no copy on another disk is known", True
    return f"the newest copy on another disk is {age_words(now - at)}", now - at > OLD_COPY


def age_words(age: timedelta) -> str:
    """An age in whole days: "3 days old", "less than a day old"."""
    return f"{plural(age.days, 'day')} old" if age.days > 0 else "less than a day old"


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def copy_at(path: Path, day: date | None) -> Copy:
    """The copy at a path, of a day or of none, with its time and size from the file."""
    facts = path.stat()
    made = datetime.fromtimestamp(int(facts.st_mtime), UTC)
    return Copy(path, made, facts.st_size, day)


def newest_good_copy(book: Path) -> Copy | None:
    """The newest copy that opens and checks out; None where there is none."""
    for copy in list_copies(book):
        try:
            BookFile(copy.path).check_kind()
            if not integrity_faults(copy.path, quick=True):
                return copy
        except (Refused, *FAULTS):
            continue
    return None


def damage_of(book: Path, *, quick: bool = False) -> str:
    """What SQLite's check complains of, or why the file is no book; "" where it is whole.

    Raises Refused for what is in the way of looking: a lock, a mode, a full disk.
    """
    try:
        faults = integrity_faults(book, quick=quick)
        if not faults:
            BookFile(book).check_kind()
    except NotABook as refused:
        return str(refused)
    except FAULTS as fault:
        words = fault_words(fault, book)
        if isinstance(words, NotABook):
            return str(words)
        raise words from fault
    return f"The book is damaged: {faults[0]}." if faults else ""


def way_back(book: Path, *, sure: bool = False) -> str:
    """Say which copy to go back to, and how; nobody is sent there before a whole check found damage.

    `sure` where it just has.
    """
    try:
        if not sure and not damage_of(book):
            return f"A full check finds nothing wrong with the file itself; {Way.CHECK} says more."
    except Refused as obstacle:
        return f"It can't be checked now. {obstacle}"
    try:
        copy = newest_good_copy(book)
    except Refused:
        return f"Go back to a copy with {Way.RESTORE}."
    if copy is None:
        return "There is no good copy beside it; look for one elsewhere before anything else."
    day = copy.day or copy.made.date()
    return (
        f"The newest good copy is {copy.path} ({day:%-d %b %Y}): look into it with "
        f"{Way.BOOK_AT.of(copy.path)}, go back to it with {Way.RESTORE_COPY.of(copy.path)}."
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
