"""Opening, reading and writing the file: synced, with foreign keys, and never at once twice."""

from __future__ import annotations

import sqlite3
import stat
import threading
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.clock import FixedClock
from logbook.store.file.book_file import BookFile, Patience
from logbook.store.file.faults import CannotWrite, NoBook, NotABook, fault_words
from logbook.store.file.opening import new_book_file
from logbook.text import Refused
from logbook.ways import Way
from tests.actions.days import counts, sow_at
from tests.quick_disk import Unsynced
from tests.room import moment


def test_writing_is_fully_synced_with_foreign_keys_on(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Unsynced, "execute", sqlite3.Connection.execute)
    with book.writing() as act:
        raw = act.reading.connection
        assert raw.execute("PRAGMA foreign_keys").fetchone() == (1,)
        assert raw.execute("PRAGMA synchronous").fetchone() == (3,)  # EXTRA
        assert raw.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert raw.in_transaction


def test_an_entry_on_a_tray_that_is_not_there_is_not_written(book: Book) -> None:
    before = counts(book)
    with pytest.raises(Refused), book.writing() as act:
        act.entry("jot", [12_345], note="nobody")
    assert counts(book) == before


def test_an_act_that_fails_half_way_leaves_nothing(book: Book) -> None:
    def fail() -> None:
        with book.writing() as act:
            act.entry("jot", [], note="half")
            raise RuntimeError

    before = counts(book)
    with pytest.raises(RuntimeError):
        fail()
    assert counts(book) == before


def test_reading_cannot_write(book: Book) -> None:
    with pytest.raises(Refused), book.reading() as reading:
        reading.rows("DELETE FROM entry")


def test_a_reader_sees_one_moment_of_the_book(book: Book) -> None:
    sow_at(book, "2026-04-01 08:00", 2)
    with book.reading() as reading:
        first = reading.row("SELECT count(*) FROM tray")
        assert reading.connection.in_transaction
        assert reading.row("SELECT count(*) FROM tray") == first


def test_two_programs_that_read_then_write_do_not_lock_each_other_out(book: Book) -> None:
    # given: two programs, each with its own connection to one book
    sow_at(book, "2026-04-01 08:00", 4)
    path, rounds = book.file.path, 6
    start = threading.Barrier(2)
    faults: list[BaseException] = []

    def write(who: str) -> None:
        try:
            mine = open_book(path, FixedClock(moment("2026-04-02 08:00")), who)
            start.wait(30)
            for number in range(rounds):
                did(mine, "water", [101 + number % 4])
                jot(mine, [101], f"{who} {number}")
        except BaseException as fault:  # noqa: BLE001 - shown by the test's own thread
            faults.append(fault)

    # when
    threads = [threading.Thread(target=write, args=(who,)) for who in ("AB", "CD")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    # then
    assert faults == []
    book.clock = FixedClock(moment("2026-04-02 09:00"))
    entries = page(book)
    assert sum(entry.kind == "water" for entry in entries) == 2 * rounds
    assert sum(entry.kind == "jot" for entry in entries) == 2 * rounds


def test_a_second_writer_waits_for_the_first(book: Book) -> None:
    second = threading.Thread(target=lambda: jot(open_book(book.file.path, by="CD"), [], "second"))
    with book.writing() as act:
        act.reading.connection.execute("SELECT 1")
        second.start()
        act.entry("jot", [], note="first")
    second.join()
    with BookFile(book.file.path).writing() as writer:
        notes = writer.rows("SELECT note FROM entry ORDER BY id")
    assert notes == [("first",), ("second",)]


def _folder(path: Path) -> None:
    path.mkdir()


def _text(path: Path) -> None:
    path.write_text("not a book\n")


def _nothing_in_it(path: Path) -> None:
    path.touch()


def _another_program_s(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE entry (id INTEGER)")
    connection.commit()
    connection.close()


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (_folder, "is a folder; name a file in it"),
        (_text, "not a database of this program"),
        (_nothing_in_it, "the file is empty"),
        (_another_program_s, "is a database, but not a book of this program"),
    ],
)
def test_what_is_no_book_is_said_and_left_alone(
    tmp_path: Path, make: Callable[[Path], None], words: str
) -> None:
    path = tmp_path / "room.book"
    make(path)
    before = None if path.is_dir() else path.read_bytes()
    with pytest.raises(NotABook, match=words):
        open_book(path)
    assert before is None or path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


def test_a_damaged_book_is_said_and_left_alone(book: Book) -> None:
    path = book.file.path
    whole = path.read_bytes()
    path.write_bytes(whole[:100] + b"\xff" * 8000 + whole[8100:])
    damaged = path.read_bytes()
    with pytest.raises(NotABook, match="is damaged"):
        open_book(path)
    assert path.read_bytes() == damaged


def test_a_book_that_is_cut_short_is_said(book: Book) -> None:
    path = book.file.path
    path.write_bytes(path.read_bytes()[:5000])
    with pytest.raises(Refused):
        open_book(path)


def test_a_missing_book_says_how_to_make_one(tmp_path: Path) -> None:
    with pytest.raises(NoBook, match=str(Way.BEGIN)):
        open_book(tmp_path / "none" / "room.book")
    assert list(tmp_path.iterdir()) == []


def test_a_book_that_vanishes_while_it_is_open_is_said_and_not_made_anew(book: Book) -> None:
    book.file.path.unlink()
    with pytest.raises(NoBook):
        jot(book, [], "where is it")
    assert not book.file.path.exists()


def test_a_new_book_s_file_is_its_owner_s_alone(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "er" / "room.book"
    with new_book_file(path):
        assert not path.exists()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_a_new_book_that_fails_half_way_leaves_no_file(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no"), new_book_file(tmp_path / "room.book"):
        raise Refused("no")
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_came_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "room.book"
    with pytest.raises(Refused, match="already a file"), new_book_file(path):
        path.write_text("somebody else's")
    assert path.read_text() == "somebody else's"


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(CannotWrite, match="cannot be made"), new_book_file(tmp_path / "file" / "x"):
        pass


def test_a_reader_says_that_it_waits_and_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.TOLD_SECONDS", 0)
    path = tmp_path / "room.book"
    with new_book_file(path):
        pass
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        said: list[str] = []

        def say(words: str) -> None:
            said.append(words)
            other.execute("COMMIT")

        other.execute("BEGIN EXCLUSIVE")
        with BookFile(path, Patience(say=say)).reading() as rows:
            assert rows.value("SELECT count(*) FROM entry") == 0
        assert said == ["Another program is writing to the book; waiting for it."]


def test_a_brief_reader_gives_up_instead(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.TOLD_SECONDS", 0)
    path = tmp_path / "room.book"
    with new_book_file(path):
        pass
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with (
            pytest.raises(CannotWrite, match="still writing"),
            BookFile(path, Patience(brief=True)).reading(),
        ):
            pass


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        ("database or disk is full", "disk is full"),
        ("attempt to write a readonly database", "can only be read"),
        ("database is locked", "is still writing to the book"),
        ("database disk image is malformed", "damaged"),
        ("file is not a database", "damaged"),
        ("no such table: tray", "not a book"),
        ("unable to open database file", "is gone from its place"),
        ("disk I/O error", "does not answer as it should"),
    ],
)
def test_every_fault_of_the_database_is_one_sentence_that_says_what_was_written(
    fault: str, words: str
) -> None:
    sentence = str(fault_words(sqlite3.OperationalError(fault), Path("room.book")))
    assert words in sentence
    assert "\n" not in sentence


def test_a_file_that_is_there_and_cannot_be_opened_is_not_called_gone(tmp_path: Path) -> None:
    path = tmp_path / "room.book"
    path.touch()
    fault = fault_words(sqlite3.OperationalError("unable to open database file"), path)
    assert "cannot be opened: nothing was written. Look at the permissions" in str(fault)
    assert not isinstance(fault, NoBook)
