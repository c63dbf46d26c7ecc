"""Making copies of the book: by hand, and one a day, of which the newest days, weeks and months stay."""

from collections.abc import Callable, Collection
from dataclasses import replace
from datetime import date
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.copies import (
    Copy,
    beyond_share,
    copies_folder,
    copy_at,
    copy_name,
    list_copies,
    naming_copies,
    own_settings,
)
from logbook.paths import private_folder
from logbook.settings import Settings
from logbook.store.file.copies import Progress, give_name, unfinished_copy
from logbook.store.file.health import write_elsewhere
from logbook.store.file.leftovers import remove_quietly
from logbook.store.server.address import only_files
from logbook.store.server.server_book import ServerBook
from logbook.text import Refused


def named_copy(given: Path, *books: Path) -> Path:
    """The file of a copy that is named by its path, or by its name alone among the copies of books."""
    if given.exists() or len(given.parts) > 1:
        return given
    among = (copies_folder(book) / given.name for book in books)
    return next((each for each in among if each.exists()), given)


def copy_book(book: Book, target: Path | None = None, progress: Progress | None = None) -> Copy:
    """Make a checked, synced copy of an open book; others may read and write meanwhile.

    `target` is a file, or a folder to put it in; by default the copies' folder. Raises Refused where
    there is a file of that name, no such folder, no room, or the book is damaged.
    """
    own = _file_of(book)
    name = copy_name(own, f"{book.now().astimezone(book.zone):%Y-%m-%dT%H%M%S}")
    if target is None:
        target = copies_folder(own) / name
    elif target.is_dir():
        target /= name
    elif not target.parent.is_dir():
        raise Refused(
            f"There is no folder {target.parent}. If it is on a USB stick, plug it in; nothing "
            "was copied."
        )
    if target.exists():
        raise Refused(f"There is already a file at {target}; it was not touched.")
    return _make(book, target, None, progress)


def _file_of(book: Book) -> Path:
    if isinstance(book.file, ServerBook):
        raise only_files(book.file.address)
    return book.file.path


def _make(book: Book, target: Path, day: date | None, progress: Progress | None) -> Copy:
    try:
        private_folder(target.parent)
    except OSError as fault:
        raise Refused(
            f"The folder {target.parent} cannot be made: {fault.strerror}. Name another."
        ) from fault
    with naming_copies(book.file.path), unfinished_copy(book.file.path, target, progress) as made:
        give_name(made, target)
    if target.stat().st_dev != book.file.path.stat().st_dev:
        write_elsewhere(book.file.path, book.now())
    return copy_at(target, day)


def daily_copy(
    book: Book, settings: Settings | None = None, progress: Progress | None = None
) -> Copy | None:
    """Make today's copy unless it is there, then remove the daily copies that are not to stay.

    None where there was nothing to make. Only copies that the program made by itself are ever
    removed, and only after a new one was checked and synced.
    """
    today, path, settings = book.today(), _file_of(book), own_settings(settings)
    if settings.keep_daily == 0:
        return None
    target = copies_folder(path, settings) / copy_name(path, today.isoformat())
    if target.exists() or target.with_suffix("").exists():
        return None
    copy = _make(book, target, today, progress)
    dated = [each for each in list_copies(path, settings) if each.day]
    kept = days_kept({each.day for each in dated if each.day}, settings) | {today}
    for each in dated:
        if each.day not in kept:
            remove_quietly(each.path)
    return replace(copy, thinned=thin(path, settings))


NEVER_THINNED = 3
"""So many of the newest copies that the program made by itself stay, whatever they take."""


def thin(book: Path, settings: Settings) -> int:
    """Remove the oldest copies until all keep to their share of the disk; returns how many went.

    Those that were made by hand stay, and the newest of the others.
    """
    before_updates, went = f"{book.name}.before-", 0
    own = [
        each for each in list_copies(book, settings)
        if each.daily or each.path.name.startswith(before_updates)
    ]  # fmt: skip
    for each in reversed(own[NEVER_THINNED:]):
        disk = [each, *(copy for copy in list_copies(book, settings) if copy.path != each.path)]
        if beyond_share(disk, settings) > 0:
            remove_quietly(each.path)
            went += 1
    return went


def days_kept(days: Collection[date], keeping: Settings) -> set[date]:
    """Which of the days' copies stay: a day stays when any of the three rules keeps it.

    A day counts for its ISO week and its calendar month; of each the newest copy stays.
    """
    newest = sorted(set(days), reverse=True)
    kept = set(newest[: keeping.keep_daily])
    kept |= _last_of(newest, keeping.keep_weekly, lambda day: day.isocalendar()[:2])
    kept |= _last_of(newest, keeping.keep_monthly, lambda day: (day.year, day.month))
    return kept


def _last_of(newest: list[date], most: int, group: Callable[[date], tuple[int, int]]) -> set[date]:
    last = {group(day): day for day in reversed(newest)}
    return set(sorted(last.values(), reverse=True)[:most])
