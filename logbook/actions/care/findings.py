"""What a check of the book looks at, one thing each: how it is, in words, and what to do about it."""

import os
import shlex
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from logbook.actions.care.closing import days_not_as_closed, wrong_words
from logbook.actions.clocking import AHEAD
from logbook.actions.copies import (
    OLD_COPY,
    age_words,
    beyond_share,
    copies_folder,
    damage_of,
    elsewhere_words,
    list_copies,
    own_settings,
    way_back,
)
from logbook.clock import Clock
from logbook.paths import state_folder
from logbook.settings import Settings
from logbook.store.file import health
from logbook.store.file.book_file import BookFile
from logbook.store.file.rooms import (
    RESERVE_BYTES,
    bytes_in,
    file_system_of,
    free_bytes,
    is_network,
    is_read_only,
    megabytes,
    why_fleeting,
)
from logbook.store.reads.entries import read_ahead
from logbook.store.rows import Rows, maybe_moment
from logbook.store.server.server_book import ServerBook
from logbook.text import Refused, listed, plural
from logbook.ways import Way

NEW_PLACE = Way.COPY_TO.of("FOLDER/room.book")
"""A copy of such a name is the book itself; one that the program names is packed."""
Severity = Literal["good", "note", "warning", "bad"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was looked at: what it is, how grave, what was found, what to do ("": nothing).

    note: worth knowing; warning: to be put right; bad: the book cannot be trusted or written.
    """

    about: str
    """integrity, file, revision, clock, copies …"""
    severity: Severity
    words: str
    todo: str = ""
    """What to do about it; empty when nothing is to be done."""


def judged(
    about: str, wrong: object, good: str, words: str, todo: str, severity: Severity = "warning"
) -> Finding:
    """What was looked at: good in the first words, or something wrong in the second."""
    return Finding(about, severity, words, todo) if wrong else Finding(about, "good", good)


def integrity(path: Path) -> Finding:
    """Whether the file is a whole book, its indexes too.

    Where something is in the way of looking, that is found of the "file", and says nothing of damage.
    """
    try:
        damage = damage_of(path)
    except Refused as obstacle:
        return Finding("file", "bad", str(obstacle), "This isn't damage; check again afterwards.")
    other = "" if "damaged" in damage else f"Name your book with {Way.BOOK}, if this isn't it. "
    todo = f"{other}{way_back(path, sure=True)}" if damage else ""
    return judged("integrity", damage, "The file is whole.", damage, todo, "bad")


def in_tables(connection: sqlite3.Connection, clock: Clock, *, quick: bool) -> Iterator[Finding]:
    """What the tables tell; `quick` leaves out rows that point to nothing."""
    mode = health.journal_mode(connection)
    faulty = mode == "wal" and sqlite3.sqlite_version_info < health.MENDED_WAL
    fault = " and this SQLite has a rare fault with it" if faulty else ""
    yield judged(
        "journal",
        mode != "delete",
        "Every entry is on the disk before it is confirmed (journal: delete).",
        f"The journal mode is {mode}: another program changed it{fault}.",
        f"Close every program that has the book open and run {Way.CHECK_MEND}.",
    )
    yield from in_time(Rows(connection), clock)
    if not quick:
        rows = health.dangling_rows(connection)
        lost = listed([f"{count:,} of {table}" for table, count in sorted(rows.items())])
        yield judged(
            "references",
            rows,
            "Every reference points to a row.",
            f"Some references point to a missing row: {lost}.",
            f"Another program has changed the file. Compare with {Way.RESTORE_TRIED} and "
            "go back to a copy from before.",
            "bad",
        )


def in_time(rows: Rows, clock: Clock) -> Iterator[Finding]:
    """Whether the clock and what is written agree."""
    now = clock.now()
    newest = maybe_moment(health.newest_written(rows)) or now
    yield judged(
        "clock",
        newest > now,
        "The clock is later than the newest entry.",
        f"The clock says {now:%Y-%m-%d %H:%M} UTC, but the newest entry was written "
        f"{newest:%Y-%m-%d %H:%M} UTC.",
        "Set the clock (`timedatectl`), or wait until the network has set it; until then give "
        f"times with {Way.AT}.",
    )
    ahead = [str(each.id) for each in read_ahead(rows, now + AHEAD)]
    yield judged(
        "ahead",
        ahead,
        "No entry is dated in the future.",
        f"{plural(len(ahead), 'entry is', 'entries are')} dated in the future: {listed(ahead, most=9)}.",
        f"If the clock is right now, {Way.AHEAD_STRIKE} strikes them out, and {Way.AHEAD_DATE} "
        "gives all of them that time.",
    )


def closed_days(file: BookFile | ServerBook, clock: Clock, *, quick: bool) -> Finding:
    """Whether the days that are over are as they were closed; `quick` looks at some, others each day."""
    wrong = days_not_as_closed(file, clock.now().date(), quick=quick)
    return judged(
        "days",
        wrong,
        "Closed days are unchanged. (This shows slips and damage, not the work of someone who "
        "rewrites the digests too.)",
        wrong_words(wrong),
        f"Another program has changed the file. Compare with {Way.RESTORE_TRIED} and go back to a "
        "copy from before.",
        "bad",
    )


def around(
    path: Path, clock: Clock, settings: Settings | None, run: Path, mounts: Path
) -> Iterator[Finding]:
    """What the book rests on: the machine's clock, its disks, the copies, SQLite."""
    if health.clock_was_set(run) is False:
        yield Finding(
            "clock set",
            "warning",
            "The network has not set this machine's clock since it started.",
            "Check the network; a small computer without a battery loses the time in a power cut. "
            f"Until then give times with {Way.AT}.",
        )
    yield permissions(path, settings)
    free, needed = free_bytes(path.absolute().parent), path.stat().st_size + 4 * RESERVE_BYTES
    yield judged(
        "room",
        free < needed,
        f"{megabytes(free)} are free.",
        f"Only {megabytes(free)} are free on the book's disk; it needs {megabytes(needed)} to "
        "grow and be copied.",
        "Make room: old downloads, logs, packages. Keep fewer copies (keep_daily, keep_weekly and "
        "keep_monthly in the settings), or keep them on another disk (copies).",
        "warning" if free >= RESERVE_BYTES else "bad",
    )
    beside = sum(each.size for each in list_copies(path, settings))
    sizes = [megabytes(size) for size in (path.stat().st_size, beside, bytes_in(state_folder()))]
    words = "The book takes {}, its copies {}, drafts and the program's other files {}."
    yield Finding("size", "good", words.format(*sizes))
    yield lasting(path, file_system_of(path, mounts))
    yield from kept_copies(path, clock, settings)
    oldest, version = ".".join(map(str, health.OLDEST_SQLITE)), sqlite3.sqlite_version
    yield judged(
        "sqlite", sqlite3.sqlite_version_info < health.OLDEST_SQLITE, f"SQLite {version}.",
        f"SQLite {version} is too old; {oldest} is needed.", "Update the system.", "bad",
    )  # fmt: skip


def lasting(path: Path, kind: str) -> Finding:
    """Whether the disk, of a type as the kernel names it, is this machine's own and keeps the book."""
    if where := why_fleeting(path, kind):
        words = f"The book is {where} ({kind}): it may be lost when the machine restarts."
        todo = (
            f"Copy it into a folder of your own on a card or USB disk ({NEW_PLACE}), and carry "
            "on there "
            f"with {Way.BOOK}."
        )
        return Finding("disk", "warning", words, todo)
    return judged(
        "disk",
        is_network(kind),
        f"The disk is this machine's own ({kind or 'unknown'}).",
        f"The book is on a network disk ({kind}): two programs that write at once may damage it.",
        "Move it to this machine's own disk and send only copies over the network.",
    )


def _way_to_write(shut: list[Path], folder: Path) -> str:
    """What lets the book be written: never a change to a folder that is not its owner's own."""
    if is_read_only(folder):
        return (
            "The disk is mounted read-only. A failing card can do this by itself: copy the book "
            f"to another disk first ({NEW_PLACE}), then look at what `dmesg` says."
        )
    strange = [each for each in shut if each.stat().st_uid != os.geteuid()]
    if strange and not folder.is_relative_to(Path.home()):
        return (
            f"{strange[-1]} belongs to someone else; leave it as it is. Copy the book into a "
            "folder "
            f"of your own ({NEW_PLACE}), and carry on there with {Way.BOOK}."
        )
    named = [shlex.quote(str(each)) for each in strange or shut]
    return f"Run {'sudo chown $USER' if strange else 'chmod u+rwX'} {' '.join(named)}"


def permissions(path: Path, settings: Settings | None) -> Finding:
    """Whether the book can be written, and read by its owner alone."""
    folder = path.absolute().parent
    shut = [each for each in (path, folder) if not os.access(each, os.W_OK)]
    if shut:
        words = f"You can't write to {listed([str(each) for each in shut])}: no entry can be saved."
        return Finding("permissions", "bad", words, _way_to_write(shut, folder))
    copies = copies_folder(path, settings)
    mine = [path, *((copies,) if copies.is_dir() else ())]
    mine += [copy.path for copy in list_copies(path, settings)]
    wide = [str(each) for each in mine if health.open_to_others(each)]
    return judged(
        "permissions",
        wide,
        "Only you can read the book and its copies.",
        f"Others on this machine can read {listed(wide, most=3)}.",
        f"Run {Way.CHECK_MEND}, or chmod 600 on files and chmod 700 on folders.",
    )


def kept_copies(path: Path, clock: Clock, settings: Settings | None) -> Iterator[Finding]:
    """Whether there is a copy, of late, and on another disk."""
    copies, todo = list_copies(path, settings), f"Make one now: {Way.COPY}."
    if not copies:
        yield Finding("copies", "warning", "There is no copy of this book.", todo)
        return
    age = clock.now() - copies[0].made
    words = f"{plural(len(copies), 'copy', 'copies')}, the newest {age_words(age)}."
    yield judged("copies", age > OLD_COPY, words, words, todo)
    settings = own_settings(settings)
    over, share = beyond_share(copies, settings), f"{settings.copies_percent} % of the disk"
    yield judged(
        "copies share",
        over > 0,
        f"The copies keep to their share of the disk ({share}).",
        f"The copies take {megabytes(max(over, 0))} more than their share ({share}); the oldest "
        "daily ones go when the next is made, never the newest few and never those made by hand.",
        "Remove copies you don't need, keep them on another disk (copies in the settings), or "
        "give them more (copies_percent).",
    )
    words, old = elsewhere_words(path, clock.now(), settings)
    words = (
        f"{words[0].upper()}{words[1:]}{'; one broken card would lose everything' if old else ''}."
    )
    todo = f"Copy to another disk now and then: {Way.COPY_TO.of('/media/STICK')}."
    yield judged("copies elsewhere", old, words, words, todo, "note")
