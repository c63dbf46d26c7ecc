"""A full, write-protected or vanished disk: a sentence, nothing half written, and then it goes on."""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
import subprocess
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.care.keeping import copy_book, daily_copy
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.cli import mishap
from logbook.clock import FixedClock
from logbook.paths import state_folder
from logbook.store.file import book_file, copies
from logbook.store.file.book_file import connect_file
from logbook.store.file.health import integrity_faults
from logbook.text import Refused
from tests.safety.conftest import notes, unpacked
from tests.small_disk import fill_up, small_disk


@pytest.fixture
def small(tmp_path: Path) -> Iterator[Path]:
    """A small disk of its own."""
    with small_disk(tmp_path / "small") as folder:
        yield folder


@pytest.fixture
def there(small: Path, book: Book) -> Book:
    """The book, on the small disk."""
    return open_book(Path(shutil.copy(book.file.path, small / "room.book")), book.clock, "ab")


@pytest.mark.parametrize("leave", [0, 4096, 12 * 1024, 20 * 1024, 32 * 1024])
def test_a_full_disk_takes_nothing_of_an_act_and_goes_on_when_there_is_room(
    leave: int, there: Book, small: Path
) -> None:
    filler = fill_up(small, leave)
    before = notes(there)
    written: list[object] = []

    def go_on() -> None:
        drafts = [SowDraft("radish", trays=1, note="x" * 900)] * 40
        written.extend(sow(there, draft) for draft in drafts)

    with pytest.raises(
        Refused, match=r"nothing was written to room\.book\. Make room and try again\.$"
    ):
        go_on()

    assert len(notes(there)) == len(before) + 2 * len(written)
    assert integrity_faults(there.file.path) == []
    assert the_round(there)
    filler.unlink()
    jot(there, (), "room again")
    assert notes(there)[-1] == "room again"


def test_a_limit_that_sqlite_knows_of_is_told_in_the_same_words(book: Book) -> None:
    """Where nothing can be mounted: a cap on the pages of the file acts as a full disk does."""

    def capped(path: Path) -> sqlite3.Connection:
        connection = connect_file(path)
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count={pages}")
        return connection

    before = notes(book)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(book_file, "connect_file", capped)
        with pytest.raises(Refused, match="disk is full"):
            jot(book, (), "y" * 20_000)

    assert notes(book)[: len(before)] == before
    jot(book, (), "room again")


def test_a_new_book_on_a_full_disk_leaves_nothing(small: Path, clock: FixedClock) -> None:
    filler = fill_up(small, 40 * 1024)

    with pytest.raises(Refused, match="cannot be made"):
        begin_book(small / "new.book", BeginDraft(), clock)

    assert list(small.iterdir()) == [filler]


def test_a_copy_that_fills_the_disk_is_taken_away_again(
    there: Book, small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill_up(small, 100 * 1024)
    monkeypatch.setattr(copies, "need_room", lambda _folder, _size: None)

    with pytest.raises(Refused, match="The disk became full while the copy was made"):
        copy_book(there, small / "a.book")

    assert sorted(path.name for path in small.iterdir()) == ["filler", "room.book"]
    assert integrity_faults(there.file.path) == []


def test_a_copy_is_refused_where_a_small_disk_has_no_room(there: Book, small: Path) -> None:
    with pytest.raises(Refused, match="There is no room in"):
        daily_copy(there)

    assert notes(there)
    assert list((small / "copies").iterdir()) == []


def test_a_write_protected_disk_is_read_and_not_written(
    there: Book, small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(copies, "need_room", lambda _folder, _size: None)
    subprocess.run(["mount", "-o", "remount,ro", str(small)], check=True)

    seen = open_book(there.file.path, there.clock, "ab")
    assert the_round(seen)
    with pytest.raises(Refused, match="can only be read: nothing was written"):
        jot(seen, (), "lost?")
    with pytest.raises(Refused, match="cannot be made"):
        copy_book(seen, small / "a.book")
    subprocess.run(["mount", "-o", "remount,rw", str(small)], check=True)
    jot(seen, (), "kept")
    assert notes(seen)[-1] == "kept"


def test_a_disk_that_is_pulled_out_and_put_back(there: Book, small: Path, tmp_path: Path) -> None:
    kept = Path(shutil.copy(there.file.path, tmp_path / "kept"))
    subprocess.run(["umount", "-l", str(small)], check=True)
    subprocess.run(["mount", "-t", "tmpfs", "none", str(small)], check=True)

    gone = r"gone from its place, .*room.book: is its disk .* Nothing was written; what you typed"
    with pytest.raises(Refused, match=gone):
        jot(there, (), "lost?")
    with pytest.raises(Refused, match=gone):
        the_round(there)
    with pytest.raises(Refused, match="There is no book at"):
        open_book(there.file.path)
    assert list(small.iterdir()) == [], "no empty book was made in its stead"

    shutil.copy(kept, there.file.path)
    jot(there, (), "back")
    assert notes(there)[-1] == "back"


def test_a_vanished_folder_is_told_in_words(book: Book) -> None:
    shutil.rmtree(book.file.path.parent)

    with pytest.raises(Refused, match="is gone"):
        jot(book, (), "lost?")


def test_a_book_that_vanishes_at_the_last_moment_is_not_made_anew_and_empty(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    book.file.path.unlink()
    monkeypatch.setattr(Path, "exists", lambda _path: True)

    with pytest.raises(Refused, match="is gone"):
        jot(book, (), "lost?")

    assert list(book.file.path.parent.iterdir()) == []


def test_what_is_read_together_is_of_one_moment(book: Book) -> None:
    count = "SELECT count(*) FROM entry WHERE note = 'between'"
    with book.reading() as seen:
        before = seen.row(count)
        with (
            closing(sqlite3.connect(book.file.path, timeout=0, isolation_level=None)) as other,
            contextlib.suppress(sqlite3.OperationalError),
        ):
            other.execute("UPDATE entry SET note = 'between'")
        assert seen.row(count) == before


def test_a_journal_that_a_crash_left_is_rolled_back_before_anything_is_read(book: Book) -> None:
    """A copy of the files in the middle of a transaction is what a crash leaves."""
    crashed = book.file.path.with_name("crashed.book")
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("PRAGMA cache_size=2")
        other.execute("BEGIN")
        other.execute("UPDATE entry SET note = printf('%90000s', 'half')")
        shutil.copy(f"{book.file.path}-journal", f"{crashed}-journal")
        shutil.copy(book.file.path, crashed)
        other.execute("ROLLBACK")
    assert b"half" in crashed.read_bytes()

    copy = copy_book(open_book(crashed, book.clock))

    assert notes(open_book(crashed)) == notes(book)
    assert notes(open_book(unpacked(copy))) == notes(book)


def test_a_journal_that_a_crash_left_on_a_write_protected_disk_is_told_of(
    there: Book, small: Path
) -> None:
    """Nothing may be shown that was never finished; what was finished cannot be brought back."""
    with closing(sqlite3.connect(there.file.path, isolation_level=None)) as other:
        other.execute("PRAGMA cache_size=2")
        other.execute("BEGIN")
        other.execute("UPDATE entry SET note = printf('%10000s', 'half')")
        shutil.copy(there.file.path, small / "crashed.book")
        shutil.copy(f"{there.file.path}-journal", small / "crashed.book-journal")
        other.execute("ROLLBACK")
    subprocess.run(["mount", "-o", "remount,ro", str(small)], check=True)

    with pytest.raises(Refused, match="can only be read"):
        open_book(small / "crashed.book")


def test_another_program_that_keeps_writing_is_told_in_words(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.PATIENCE_SECONDS", 0.05)
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")

        with pytest.raises(Refused, match="Another program is still writing"):
            jot(book, (), "mine")

    jot(book, (), "mine")


def test_the_log_of_the_program_s_faults_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mishap, "MOST_BYTES", 1000)
    for _ in range(100):
        mishap.keep_trace(ValueError("x"))
    kept = [each.stat().st_size for each in state_folder().glob("faults.log*")]
    assert len(kept) == 2
    assert sum(kept) < 2500
