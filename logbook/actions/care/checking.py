"""Looking after the book: what a check finds, in words, and what to do about it."""

import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.care import findings
from logbook.actions.care.closing import close_days
from logbook.actions.care.findings import Finding, judged
from logbook.actions.care.keeping import daily_copy
from logbook.actions.copies import copies_folder, list_copies, thinned_words, way_back
from logbook.actions.reading import true_summaries
from logbook.clock import Clock, SystemClock
from logbook.paths import settings_folder, state_folder
from logbook.settings import Settings
from logbook.store import search
from logbook.store.file import health
from logbook.store.file.book_file import BookFile, connect_file
from logbook.store.file.copies import Progress
from logbook.store.file.faults import FAULTS, fault_words
from logbook.store.file.health import Stamp, read_stamp, write_stamp
from logbook.store.file.leftovers import leftovers, remove_quietly
from logbook.store.file.opening import check_known
from logbook.store.revision import HEAD, revision_of
from logbook.store.server.server_book import ServerBook
from logbook.text import Refused, plural
from logbook.ways import Way

_AT_ONCE = 500
_ENTRIES_AT_ONCE = 50_000


@dataclass(frozen=True, slots=True)
class Checked:
    """What was mended and what was found."""

    mended: tuple[str, ...]
    findings: tuple[Finding, ...]


def check(
    path: Path, clock: Clock | None = None, settings: Settings | None = None, *,
    quick: bool = False, run: Path = Path("/run"), mounts: Path = Path("/proc/mounts"),
    progress: Progress | None = None,
) -> tuple[Finding, ...]:  # fmt: skip
    """Look at all that the trust in a book rests on; nothing is changed.

    A quick check leaves out the rows that point to nothing, the trays' summaries, the search and
    most of the closed days.
    Others may read and write meanwhile. `run` and `mounts` are where the machine tells of its
    clock and disks. Raises Refused where there is no file at the path, or the book of a newer program.
    """
    if not path.is_file():
        BookFile(path).check_kind()
    clock = clock or SystemClock()
    whole = findings.integrity(path)
    good = whole.severity == "good"
    if good:
        check_known(path, BookFile(path).check_kind())
    return (
        whole,
        *(_inside(path, clock, quick=quick, progress=progress) if good else ()),
        *findings.around(path, clock, settings, run, mounts),
    )


def _inside(
    path: Path, clock: Clock, *, quick: bool, progress: Progress | None
) -> Iterator[Finding]:
    try:
        with health.looking(path) as connection:
            revision = revision_of(connection)
            yield judged(
                "revision",
                revision != HEAD,
                f"The tables are of revision {HEAD}, as they should be.",
                f"The book's tables are of revision {revision}; this program works with {HEAD}.",
                "Open the book once to bring it up to date; a copy is made first.",
            )
            if revision != HEAD:
                return
            yield from findings.in_tables(connection, clock, quick=quick)
        yield findings.closed_days(BookFile(path), clock, quick=quick)
        if not quick:
            yield from _kept_beside(open_book(path, clock), progress)
    except FAULTS as fault:
        yield Finding("reading", "bad", str(fault_words(fault, path)), way_back(path))


def _kept_beside(book: Book, progress: Progress | None) -> Iterator[Finding]:
    """Whether what is kept beside the entries follows from them."""
    trays = wrong_summaries(book, progress)
    yield judged(
        "summaries",
        trays,
        "Every tray's summary matches its entries.",
        f"The summary of {plural(len(trays), 'tray')} doesn't match the entries.",
        f"Run {Way.CHECK_MEND}: summaries are written again from the entries.",
    )
    wrong = wrong_words_of(book)
    words = f"what {plural(wrong, 'entry', 'entries')} say" if wrong else "all words"
    yield judged(
        "search",
        wrong or not _index_is_true(book),
        "The search finds what the entries say.",
        f"The search doesn't find {words}.",
        f"Run {Way.CHECK_MEND}: the search index is made again from the entries.",
    )


def _index_is_true(book: Book) -> bool:
    return isinstance(book.file, ServerBook) or search.index_is_true(book.file.path)


def check_server(
    book: Book, *, quick: bool = False, progress: Progress | None = None
) -> tuple[Finding, ...]:
    """Look at a book on a server: what its file is to a book, the server looks after itself."""
    with book.reading() as reading:
        found = list(findings.in_time(reading, book.clock))
    found.append(findings.closed_days(book.file, book.clock, quick=quick))
    return (*found, *(() if quick else _kept_beside(book, progress)))


def wrong_words_of(book: Book) -> int:
    """How many entries are kept with other words than they say; read in pieces, as the trays are."""
    with book.reading() as reading:
        last = reading.value("SELECT coalesce(max(id), 0) FROM entry")
    wrong = 0
    for first in range(1, last + 1, _ENTRIES_AT_ONCE):
        with book.reading() as reading:
            wrong += search.wrong_words(reading, first, first + _ENTRIES_AT_ONCE)
    return wrong


def wrong_summaries(book: Book, progress: Progress | None = None) -> list[int]:
    """The ids of trays whose stored summary differs from the fold over their entries.

    The trays are read a few hundred at a time, so that others can write between.
    """
    with book.reading() as reading:
        ids = [tray for (tray,) in reading.rows("SELECT id FROM tray ORDER BY id")]
    wrong: list[int] = []
    for start in range(0, len(ids), _AT_ONCE):
        some = ids[start : start + _AT_ONCE]
        with book.reading() as reading:
            wrong += [each.id for each in true_summaries(reading, some) if each.kept != each.true]
        if progress is not None:
            progress(start + len(some), len(ids))
    return wrong


def mend(
    path: Path, clock: Clock | None = None, settings: Settings | None = None, by: str = "",
    progress: Progress | None = None,
) -> list[str]:  # fmt: skip
    """Put right what can be without losing anything; say what was done.

    Permissions, the journal mode, the trays' summaries, the search and what killed programs left;
    never an entry.
    """
    book = open_book(path, clock, by)
    done = []
    copies = copies_folder(path, settings)
    for each in (path, *(copy.path for copy in list_copies(path, settings))):
        if health.open_to_others(each):
            each.chmod(0o600)
            done.append(f"Only you can read {each} now.")
    if copies.is_dir() and health.open_to_others(copies):
        copies.chmod(0o700)
        done.append(f"Only you may enter {copies} now.")
    try:
        with closing(connect_file(path)) as connection:
            if health.journal_mode(connection) != "delete":
                mode = connection.execute("PRAGMA journal_mode=DELETE").fetchone()[0]
                if mode != "delete":
                    raise Refused("Another program has the book open; close it and try again.")
                done.append("The journal mode is delete again.")
    except FAULTS as fault:
        raise fault_words(fault, path) from fault
    done += mend_beside(book, progress)
    ours = (path.absolute().parent, copies, state_folder(), settings_folder(), Path.cwd())
    for left in leftovers([*ours, Path(tempfile.gettempdir())]):
        remove_quietly(left)
        done.append(f"{left}, left by a program that was killed, was removed.")
    return done


def mend_beside(book: Book, progress: Progress | None = None) -> list[str]:
    """Write again what is kept beside the entries and doesn't follow from them; say what was done."""
    done = []
    if wrong := wrong_summaries(book, progress):
        from logbook.actions.writing import refresh_trays

        with book.writing() as act:
            refresh_trays(act, wrong)
        done.append(f"The summary of {plural(len(wrong), 'tray')} was written again.")
    if wrong_words_of(book) or not _index_is_true(book):
        with book.writing() as act:
            search.rebuild(act.writer)
        done.append("The search index was made again from the entries.")
    return done


def start_check(
    book: Book, settings: Settings | None = None, look: Callable[..., tuple[Finding, ...]] = check
) -> tuple[Finding, ...]:
    """Check quickly, once a day and book; returns what is not in order, () when it was today.

    A book that is found damaged is not written to from then on, in this program or another, until
    it is replaced (Book.damage). The stamp lies in the state folder, outside the book.
    """
    path, today = book.file.path, book.today()
    stamp = read_stamp(path)
    if stamp is not None and stamp.day == today and not stamp.damage:
        return ()
    found = look(path, book.clock, settings, quick=True)
    book.damage = keep_verdict(path, today, found)
    return tuple(each for each in found if each.severity in ("warning", "bad"))


def keep_verdict(path: Path, day: date, found: Sequence[Finding]) -> str:
    """Keep what a check of that day found damaged, so that the book is not written to; returns it.

    A check that something kept from looking leaves all as it was.
    """
    looked = [each for each in found if each.about == "integrity"]
    if not looked:
        before = read_stamp(path)
        return before.damage if before else ""
    damage = "".join(each.words for each in looked if each.severity == "bad")
    write_stamp(path, Stamp(day, damage))
    return damage


def look_after(book: Book, settings: Settings | None = None) -> list[str]:
    """Check the book quickly, close the days that are over and make today's copy, unless done today.

    Gives what the grower should know, as sentences; [] when all is well. Takes a while on a large
    book: not for a loop.
    """
    if isinstance(book.file, ServerBook):
        close_days(book)
        return []
    found = list(start_check(book, settings))
    also: list[str] = []
    if not book.damage:
        try:
            close_days(book)
            copy = daily_copy(book, settings)
            if copy is not None:
                found = [each for each in found if each.about != "copies"]
                also = thinned_words(copy)
        except Refused as refused:
            also = [f"Today's copy was not made. {refused}"]
    return [f"{each.words} {each.todo}".strip() for each in found] + also
