"""Looking after the book: what a check finds, in words, and what to do about it."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from logbook.actions.book import Book, open_book
from logbook.actions.copies import copies_folder, list_copies, way_back
from logbook.clock import Clock, SystemClock
from logbook.settings import Settings
from logbook.store import search
from logbook.store.file import health
from logbook.store.file.book_file import BookFile, connect_file
from logbook.store.file.faults import FAULTS, NotABook, fault_words
from logbook.store.file.rooms import (
    RESERVE_BYTES,
    file_system_of,
    free_bytes,
    is_network,
    megabytes,
)
from logbook.store.file.stamps import Stamp, read_stamp, write_stamp
from logbook.store.reads.trays import read_trays
from logbook.store.revision import HEAD, revision_of
from logbook.store.rows import Rows, moment
from logbook.text import Refused, listed, plural
from logbook.ways import Way

if TYPE_CHECKING:
    from logbook.store.file.copies import Progress

Severity = Literal["good", "note", "warning", "bad"]
OLD_COPY = timedelta(days=7)
_AT_ONCE = 500
_ENTRIES_AT_ONCE = 50_000


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was looked at: what it is, how grave, what was found, what to do ("": nothing).

    note: worth knowing; warning: to be put right; bad: the book cannot be trusted or written.
    """

    about: str
    """integrity, revision, clock, copies …"""
    severity: Severity
    words: str
    todo: str = ""
    """What to do about it; empty when nothing is to be done."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What was mended and what was found."""

    mended: tuple[str, ...]
    findings: tuple[Finding, ...]


def check(
    path: Path,
    clock: Clock | None = None,
    settings: Settings | None = None,
    *,
    quick: bool = False,
    run: Path = Path("/run"),
    mounts: Path = Path("/proc/mounts"),
    progress: Progress | None = None,
) -> tuple[Finding, ...]:
    """Look at all that the trust in a book rests on; nothing is changed.

    A quick check leaves out the indexes, the rows that point to nothing and the trays' summaries.
    Others may read and write meanwhile. `run` and `mounts` are where the machine tells of its
    clock and disks.

    Raises:
        Refused: there is no file at the path.
    """
    if not path.is_file():
        BookFile(path).check_kind()
    clock = clock or SystemClock()
    whole = _integrity(path, quick=quick)
    found = [whole]
    if whole.severity == "good":
        found += _inside(path, clock, quick=quick, progress=progress)
    found += _clock_set(run)
    found += [_permissions(path, settings), _room(path), _disk(path, mounts)]
    found += [*_copies(path, clock, settings), _sqlite()]
    return tuple(found)


def _integrity(path: Path, *, quick: bool) -> Finding:
    try:
        faults = health.integrity_faults(path, quick=quick)
    except FAULTS as fault:
        return Finding("integrity", "bad", str(fault_words(fault, path)), way_back(path))
    if not faults:
        try:
            BookFile(path).check_kind()
        except NotABook as refused:
            todo = f"Name your book with {Way.BOOK}, if this is not it. {way_back(path)}"
            return Finding("integrity", "bad", str(refused), todo)
        words = "The file is whole." if not quick else "The file is whole, as far as a quick look."
        return Finding("integrity", "good", words)
    return Finding("integrity", "bad", f"The book is damaged: {faults[0]}.", way_back(path))


def _inside(
    path: Path, clock: Clock, *, quick: bool, progress: Progress | None
) -> Iterator[Finding]:
    try:
        with health.looking(path) as connection:
            yield _revision(revision_of(connection))
            if revision_of(connection) != HEAD:
                return
            yield _journal(health.journal_mode(connection))
            yield _newest(health.newest_written(Rows(connection)), clock)
            if not quick:
                yield _dangling(health.dangling_rows(connection))
        if not quick:
            book = open_book(path, clock)
            yield _summaries(wrong_summaries(book, progress))
            yield _words(wrong_words_of(book), search.index_is_true(path))
    except FAULTS as fault:
        yield Finding("integrity", "bad", str(fault_words(fault, path)), way_back(path))


def _revision(revision: str | None) -> Finding:
    if revision == HEAD:
        return Finding("revision", "good", f"The tables are of revision {HEAD}, as they should be.")
    return Finding(
        "revision",
        "warning",
        f"The book's tables are of revision {revision}; this program works with {HEAD}.",
        "Open the book once: it is brought up to date, a copy is made before. If it is refused, "
        "update the program.",
    )


def _journal(mode: str) -> Finding:
    if mode == "delete":
        return Finding(
            "journal",
            "good",
            "Every entry is on the disk before it is confirmed (journal: delete).",
        )
    fault = ""
    if mode == "wal" and sqlite3.sqlite_version_info < health.MENDED_WAL:
        fault = " and this SQLite has a rare fault with it"
    return Finding(
        "journal",
        "warning",
        f"The journal mode is {mode}: another program has changed it{fault}.",
        f"Close every program that has the book open and run {Way.CHECK_MEND}.",
    )


def _newest(written: str | None, clock: Clock) -> Finding:
    now = clock.now()
    if written is None or moment(written) <= now:
        return Finding("clock", "good", "The clock is later than the newest entry.")
    return Finding(
        "clock",
        "warning",
        f"The clock says {now:%Y-%m-%d %H:%M} UTC, but the newest entry was written "
        f"{moment(written):%Y-%m-%d %H:%M} UTC.",
        "Set the clock (`timedatectl`), or wait until the network has set it; till then give times "
        f"with {Way.AT}.",
    )


def _clock_set(run: Path) -> list[Finding]:
    if health.clock_was_set(run) is not False:
        return []
    return [
        Finding(
            "clock set",
            "warning",
            "The network has not set this machine's clock since it started.",
            "Look at the network; a small computer without a battery does not know the time after "
            f"a power cut. Till then give times with {Way.AT}.",
        )
    ]


def _dangling(rows: dict[str, int]) -> Finding:
    if not rows:
        return Finding("references", "good", "Every row points to a row that is there.")
    words = listed([f"{count:,} of {table}" for table, count in sorted(rows.items())])
    return Finding(
        "references",
        "bad",
        f"Rows point to rows that are not there: {words}.",
        f"Another program has changed the file. Compare with {Way.RESTORE_TRIED} and "
        "go back to a copy from before.",
    )


def _summaries(wrong: list[int]) -> Finding:
    if not wrong:
        return Finding("summaries", "good", "Every tray's summary is what its entries say.")
    return Finding(
        "summaries",
        "warning",
        f"The summary of {plural(len(wrong), 'tray')} is not what the entries say.",
        f"Run {Way.CHECK_MEND}: summaries are written anew from the entries.",
    )


def _words(wrong: int, index_is_true: bool) -> Finding:
    if not wrong and index_is_true:
        return Finding("search", "good", "The search finds what the entries say.")
    words = f"what {plural(wrong, 'entry', 'entries')} say" if wrong else "all words"
    return Finding(
        "search",
        "warning",
        f"The search doesn't find {words}.",
        f"Run {Way.CHECK_MEND}: what the search looks in is made again from the entries.",
    )


def wrong_words_of(book: Book) -> int:
    """How many entries are kept with other words than they say; read in pieces, as the trays are."""
    with book.reading() as reading:
        last = reading.value("SELECT coalesce(max(id), 0) FROM entry")
    wrong = 0
    for first in range(1, last + 1, _ENTRIES_AT_ONCE):
        with book.reading() as reading:
            wrong += search.wrong_words(reading, first, first + _ENTRIES_AT_ONCE)
    return wrong


def _permissions(path: Path, settings: Settings | None) -> Finding:
    folder = path.absolute().parent
    shut = [each for each in (path, folder) if not os.access(each, os.W_OK)]
    if shut:
        return Finding(
            "permissions",
            "bad",
            f"You may not write {listed([str(each) for each in shut])}: no entry can be saved.",
            f"Make them yours: sudo chown -R $USER {folder}",
        )
    copies = copies_folder(path, settings)
    mine = [path, *((copies,) if copies.is_dir() else ())]
    mine += [copy.path for copy in list_copies(path, settings)]
    wide = [each for each in mine if health.open_to_others(each)]
    if not wide:
        return Finding("permissions", "good", "Only you may read the book and its copies.")
    return Finding(
        "permissions",
        "warning",
        f"Others on this machine may read {listed([str(each) for each in wide], most=3)}.",
        f"Run {Way.CHECK_MEND}, or say chmod 600 to files and chmod 700 to folders.",
    )


def _room(path: Path) -> Finding:
    free = free_bytes(path.absolute().parent)
    needed = path.stat().st_size + 4 * RESERVE_BYTES
    if free >= needed:
        return Finding("room", "good", f"{megabytes(free)} are free.")
    return Finding(
        "room",
        "warning" if free >= RESERVE_BYTES else "bad",
        f"Only {megabytes(free)} are free on the book's disk; it takes {megabytes(needed)} to "
        "let it grow and be copied.",
        "Make room: old downloads, logs, packages. Keep fewer copies (keep_daily, keep_weekly and "
        "keep_monthly in the settings), or keep them on another disk (copies).",
    )


def _disk(path: Path, mounts: Path) -> Finding:
    kind = file_system_of(path, mounts)
    if not is_network(kind):
        return Finding("disk", "good", f"The disk is this machine's own ({kind or 'unknown'}).")
    return Finding(
        "disk",
        "warning",
        f"The book lies on a network disk ({kind}): two programs that write at once may damage it.",
        "Move it to this machine's own disk and send only copies over the network.",
    )


def _copies(path: Path, clock: Clock, settings: Settings | None) -> Iterator[Finding]:
    copies = list_copies(path, settings)
    if not copies:
        yield Finding(
            "copies", "warning", "There is no copy of this book.", f"Make one now: {Way.COPY}."
        )
        return
    newest = copies[0]
    age = clock.now() - newest.made
    days = max(0, age.days)
    when = f"{plural(days, 'day')} old" if days else "less than a day old"
    words = f"{plural(len(copies), 'copy', 'copies')}, the newest {when}."
    if age > OLD_COPY:
        yield Finding("copies", "warning", words, f"Make one now: {Way.COPY}.")
        return
    yield Finding("copies", "good", words)
    if newest.path.stat().st_dev == path.stat().st_dev:
        yield Finding(
            "copies elsewhere",
            "note",
            "The newest copy lies on the same disk as the book; one broken card takes both.",
            f"Now and then copy to another disk: {Way.COPY_TO.of('/media/STICK')}.",
        )


def _sqlite() -> Finding:
    version = sqlite3.sqlite_version
    if sqlite3.sqlite_version_info >= health.OLDEST_SQLITE:
        return Finding("sqlite", "good", f"SQLite {version}.")
    oldest = ".".join(str(part) for part in health.OLDEST_SQLITE)
    return Finding(
        "sqlite", "bad", f"SQLite {version} is too old; {oldest} is needed.", "Update the system."
    )


def wrong_summaries(book: Book, progress: Progress | None = None) -> list[int]:
    """Give the ids of trays whose stored summary differs from the fold over their entries.

    The trays are read a few hundred at a time, so that others can write between.
    """
    wrong: list[int] = []
    last, seen = 0, 0
    with book.reading() as reading:
        total = reading.value("SELECT count(*) FROM tray")
    while True:
        with book.reading() as reading:
            ids = [
                row[0]
                for row in reading.rows(
                    "SELECT id FROM tray WHERE id > ? ORDER BY id LIMIT ?", (last, _AT_ONCE)
                )
            ]
            if not ids:
                return wrong
            for known in reading.folded(read_trays(reading, ids)):
                state, stored = known.state, known.stored
                grams = state.grams if state.status == "cut" else None
                if (stored.live, stored.ended_at) != (state.live, state.ended_at) or not _same(
                    stored.cut_grams, grams
                ):
                    wrong.append(stored.id)
        last, seen = ids[-1], seen + len(ids)
        if progress is not None:
            progress(seen, max(seen, total))


def _same(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= 1e-6 * max(1.0, abs(other))


def mend(
    path: Path,
    clock: Clock | None = None,
    settings: Settings | None = None,
    by: str = "",
    progress: Progress | None = None,
) -> list[str]:
    """Put right what can be without losing anything; say what was done.

    Permissions, the journal mode, the trays' summaries and the search; never an entry.
    """
    done = []
    book = open_book(path, clock, by)
    copies = copies_folder(path, settings)
    for each in (path, *(copy.path for copy in list_copies(path, settings))):
        if health.open_to_others(each):
            each.chmod(0o600)
            done.append(f"Only you may read {each} now.")
    if copies.is_dir() and health.open_to_others(copies):
        copies.chmod(0o700)
        done.append(f"Only you may enter {copies} now.")
    connection = connect_file(path)
    try:
        if health.journal_mode(connection) != "delete":
            mode = connection.execute("PRAGMA journal_mode=DELETE").fetchone()[0]
            if mode != "delete":
                raise Refused("Another program has the book open; close it and try again.")
            done.append("The journal mode is delete again.")
    except FAULTS as fault:
        raise fault_words(fault, path) from fault
    finally:
        connection.close()
    wrong = wrong_summaries(book, progress)
    if wrong:
        from logbook.actions.writing import refresh_trays

        with book.writing() as act:
            refresh_trays(act, wrong)
        done.append(f"The summary of {plural(len(wrong), 'tray')} was written anew.")
    if wrong_words_of(book) or not search.index_is_true(path):
        with book.writing() as act:
            search.rebuild(act.reading.connection)
        done.append("What the search looks in was made again from the entries.")
    return done


def start_check(
    book: Book, settings: Settings | None = None, look: Callable[..., tuple[Finding, ...]] = check
) -> tuple[Finding, ...]:
    """Check quickly, once a day and book, and give what is not in order; () when it was today.

    A book that is found damaged is not written to from then on, in this program or another, until
    it is replaced (Book.damage). The stamp lies in the state folder, outside the book.
    """
    path, today = book.file.path, book.today()
    stamp = read_stamp(path)
    if stamp is not None and stamp.day == today and not stamp.damage:
        return ()
    found = look(path, book.clock, settings, quick=True)
    book.damage = keep_verdict(path, today, found, quick=True)
    return tuple(each for each in found if each.severity in ("warning", "bad"))


def keep_verdict(path: Path, day: date, found: Sequence[Finding], *, quick: bool) -> str:
    """Keep what a check of that day found damaged, so that the book is not written to; give it.

    A quick check sees less than a whole one: it does not lift a verdict on the same file.
    """
    damage = next(
        (each.words for each in found if each.about == "integrity" and each.severity == "bad"), ""
    )
    before = read_stamp(path)
    if quick and not damage and before is not None:
        damage = before.damage
    write_stamp(path, Stamp(day, damage))
    return damage
