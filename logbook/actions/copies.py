"""The copies of a book by its path: where they are, the newest good one, and the way back to it."""

import hashlib
import os
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import ClassVar

from logbook.settings import Settings, read_settings
from logbook.store.file.book_file import BookFile
from logbook.store.file.faults import FAULTS, Damaged, Newer, NotABook, fault_words
from logbook.store.file.health import integrity_faults, read_elsewhere
from logbook.store.file.packing import SUFFIX, can_pack, check_packed, is_packed
from logbook.store.file.rooms import disk_bytes
from logbook.text import Refused, plural
from logbook.ways import Way


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy: where it is, when it was made (UTC, by the file), its bytes.

    `day` is the day of a daily copy, which the rotation may remove; None for every other copy.
    """

    keys: ClassVar = "copy=path made_at=made bytes=size daily thinned damaged"

    path: Path
    """Its file."""
    made: datetime
    size: int
    day: date | None = None
    thinned: int = 0
    """How many older copies went when it was made, to keep all of them to their share of the disk."""
    damaged: bool = False
    """Whether it was looked through and isn't a whole book."""

    @property
    def daily(self) -> bool:
        """Whether it is a daily copy, which the rotation may remove."""
        return self.day is not None


@dataclass(frozen=True, slots=True)
class NoCopy:
    """No copy was made: today's is there."""

    copy: None = None


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
    """The name of a copy of a book: with the day, or with the moment; packed where that can be."""
    return f"{book.stem}-{when}{book.suffix or '.book'}{SUFFIX if can_pack() else ''}"


def list_copies(book: Path, settings: Settings | None = None) -> list[Copy]:
    """The copies of a book, newest first: daily, by hand, and from before an update."""
    folder = copies_folder(book, settings)
    named = re.compile(
        rf"{re.escape(book.stem)}-(\d{{4}}-\d\d-\d\d)(T\d{{6}})?"
        rf"{re.escape(book.suffix or '.book')}(?:{re.escape(SUFFIX)})?"
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


def beyond_share(copies: Sequence[Copy], settings: Settings) -> int:
    """By how many bytes copies take more than their share of the disk that the first lies on."""
    disks = [each.path.parent.stat().st_dev for each in copies]
    mine = [each for each, disk in zip(copies, disks, strict=True) if disk == disks[0]]
    whole = disk_bytes(copies[0].path.parent) if mine else 0
    return sum(each.size for each in mine) - whole * settings.copies_percent // 100


def thinned_words(copy: Copy) -> list[str]:
    """That older copies went when one was made, as a sentence; [] where none did."""
    if not copy.thinned:
        return []
    went = f"{plural(copy.thinned, 'older copy', 'older copies')} removed"
    return [f"{went}: together they may take a share of the disk (copies_percent in the settings)."]


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
    return next((copy for copy in list_copies(book) if _is_good(copy)), None)


def looked_through(copies: Sequence[Copy]) -> list[Copy]:
    """The copies, each with whether it is damaged; every one of them is read."""
    return [replace(copy, damaged=not _is_good(copy)) for copy in copies]


def _is_good(copy: Copy) -> bool:
    try:
        if is_packed(copy.path):
            check_packed(copy.path)
            return True
        BookFile(copy.path).check_kind()
        return not integrity_faults(copy.path)
    except (Refused, OSError, *FAULTS):
        return False


def damage_of(book: Path) -> str:
    """What SQLite's check complains of, or why the file is no book; "" where it is whole.

    Raises Refused for what is in the way of looking: a lock, a mode, a full disk.
    """
    try:
        faults = integrity_faults(book)
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
    look = Way.RESTORE_DRY if is_packed(copy.path) else Way.BOOK_AT
    return (
        f"The newest good copy is {copy.path} ({day:%-d %b %Y}): look into it with "
        f"{look.of(copy.path)}, go back to it with {Way.RESTORE_COPY.of(copy.path)}."
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
