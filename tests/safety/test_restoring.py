"""Going back to a copy."""

from __future__ import annotations

import json
import lzma
import os
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.care.keeping import copy_book
from logbook.actions.care.restoring import restore, restore_preview
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.store.file import rooms
from logbook.store.file.health import integrity_faults
from logbook.store.file.restoring import put_back
from logbook.text import Refused
from tests.safety.conftest import Run, notes, overwrite


def test_the_preview_names_what_would_be_lost_and_changes_nothing(book: Book) -> None:
    copy = copy_book(book)
    jot(book, (102,), "smells of cress")
    sow(book, SowDraft("mustard", trays=3))
    before = book.file.path.read_bytes()

    plan = restore_preview(book.file.path, copy.path)

    assert plan.loss is not None
    assert plan.loss.entries == 2
    assert plan.loss.rows["tray"] == 3
    text = "\n".join(plan.words)
    assert "Going back to it loses 2 entries" in text
    assert "with 1 batch and 3 trays" in text
    assert "jot 102: smells of cress" in text
    assert book.file.path.read_bytes() == before


def test_a_copy_that_has_all_loses_nothing(book: Book) -> None:
    copy = copy_book(book)

    assert "nothing will be lost" in restore_preview(book.file.path, copy.path).words[1]


def test_an_entry_of_the_same_number_that_says_something_else_counts_as_lost(book: Book) -> None:
    copy = copy_book(book, book.file.path.with_name("plain.book"))
    jot(book, (), "one way")
    jot(open_book(copy.path, book.clock), (), "another way")

    plan = restore_preview(book.file.path, copy.path)

    assert plan.loss is not None
    assert plan.loss.entries == 1


def test_going_back_brings_the_copy_keeps_the_present_book_and_says_so(book: Book) -> None:
    copy = copy_book(book)
    then = notes(book)
    jot(book, (), "written after the copy")

    done = restore(book.file.path, copy.path, book.clock, "ab")

    assert notes(book)[:-1] == then
    assert notes(book)[-1].startswith("Restored from the copy room-2026-04-14T073000.book")
    assert done.aside is not None
    assert notes(open_book(done.aside))[-1] == "written after the copy"
    assert book.file.path.stat().st_mode & 0o777 == 0o600
    assert copy.path.exists()


def test_the_copy_and_what_is_kept_aside_are_on_the_disk_before_it_is_said(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A name in a folder outlives a power cut only when the folder is synced after it was given."""
    path, aside = book.file.path, tmp_path / "aside.book"
    copy = copy_book(book)
    jot(book, (), "written after the copy")
    before, sync = path.stat().st_ino, os.fsync
    synced: list[tuple[str, bool, bool]] = []

    def fsync(handle: int) -> None:
        name = Path(f"/proc/self/fd/{handle}").readlink().name
        synced.append((name, aside.exists(), path.stat().st_ino != before))
        sync(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    put_back(copy.path, path, aside)

    folder = path.parent.name
    assert [name.endswith(".unfinished") for name, _, _ in synced] == [True, False, False]
    assert synced[1] == (folder, True, False)
    assert synced[2] == (folder, True, True)


def test_a_missing_book_is_brought_back(book: Book) -> None:
    copy = copy_book(book)
    then = notes(book)
    book.file.path.unlink()

    done = restore(book.file.path, copy.path, book.clock, "ab")

    assert done.aside is None
    assert notes(book)[:-1] == then


def journal_of(book: Book) -> bytes:
    """Give the journal that a crash in the middle of an act would leave."""
    journal = book.file.path.with_name("room.book-journal")
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("PRAGMA cache_size=2")
        other.execute("BEGIN")
        other.execute("UPDATE entry SET note = printf('%2000s', 'half')")
        left = journal.read_bytes()
        other.execute("ROLLBACK")
    return left


@pytest.mark.parametrize("damage", ["header", "page", "gone"])
def test_the_journal_of_a_damaged_or_missing_book_is_not_applied_to_the_copy(
    book: Book, damage: str
) -> None:
    copy = copy_book(book)
    then = notes(book)
    for number in range(30):
        jot(book, (), f"after the copy, {number}")
    left, path = journal_of(book), book.file.path
    if damage == "gone":
        path.unlink()
    else:
        overwrite(path, 0 if damage == "header" else 4096 * 12, b"\xff" * 4096)
    path.with_name("room.book-journal").write_bytes(left)

    restore(path, copy.path, book.clock, "ab")

    assert notes(book)[:-1] == then
    assert integrity_faults(path) == []
    assert not path.with_name("room.book-journal").exists()


def test_no_new_book_is_begun_beside_the_journal_of_another(book: Book) -> None:
    left, path = journal_of(book), book.file.path
    path.unlink()
    journal = path.with_name("room.book-journal")
    journal.write_bytes(left)

    with pytest.raises(Refused, match=r"room\.book-journal was left by another book"):
        begin_book(path, BeginDraft(), book.clock)

    assert journal.read_bytes() == left
    assert not path.exists()


@pytest.mark.parametrize("packed", ["", ".xz"])
def test_a_damaged_copy_is_refused_and_the_book_stays(book: Book, packed: str) -> None:
    copy = copy_book(book, book.file.path.with_name(f"a.book{packed}"))
    overwrite(copy.path, copy.size // 2 if packed else 4096 * 12, b"\xff" * 512)
    before = book.file.path.read_bytes()

    with pytest.raises(Refused, match="itself damaged; use an older one"):
        restore(book.file.path, copy.path, book.clock)

    assert book.file.path.read_bytes() == before


def test_a_copy_of_a_newer_program_is_refused(book: Book) -> None:
    copy = copy_book(book, book.file.path.with_name("plain.book"))
    with closing(sqlite3.connect(copy.path)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")

    with pytest.raises(Refused, match="newer logbook"):
        restore(book.file.path, copy.path, book.clock)


def test_what_was_packed_and_is_no_book_is_named_as_it_was_given(
    book: Book, tmp_path: Path
) -> None:
    path = tmp_path / "letter.xz"
    path.write_bytes(lzma.compress(b"dear all, " * 1000))

    with pytest.raises(Refused, match=r"letter\.xz isn't a book"):
        restore(book.file.path, path)


def test_the_book_itself_and_what_is_not_there_are_refused(book: Book, tmp_path: Path) -> None:
    with pytest.raises(Refused, match="the book itself"):
        restore(book.file.path, book.file.path)
    with pytest.raises(Refused, match="There is no copy at"):
        restore(book.file.path, tmp_path / "none.book")


def test_without_room_nothing_is_changed(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    copy = copy_book(book)
    before = book.file.path.read_bytes()
    monkeypatch.setattr(rooms, "free_bytes", lambda _folder: 0)

    with pytest.raises(Refused, match="no room"):
        restore(book.file.path, copy.path, book.clock)

    assert book.file.path.read_bytes() == before
    assert sorted(path.name for path in book.file.path.parent.iterdir()) == ["copies", "room.book"]


def test_who_is_in_the_middle_of_writing_is_waited_for(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = copy_book(book)
    monkeypatch.setattr("logbook.store.file.book_file.PATIENCE_SECONDS", 0.05)
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")

        with pytest.raises(Refused, match="Another program"):
            restore(book.file.path, copy.path, book.clock)


def test_who_writes_to_the_old_file_after_the_change_is_told_so(book: Book) -> None:
    """A connection from before must not write acknowledged entries into the file put aside."""
    copy = copy_book(book)
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("SELECT count(*) FROM entry").fetchone()
        restore(book.file.path, copy.path, book.clock)

        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            other.execute("UPDATE entry SET note = 'lost' WHERE id = 1")


def test_a_name_that_is_a_link_keeps_being_one(book: Book, tmp_path: Path) -> None:
    copy = copy_book(book)
    link = tmp_path / "link.book"
    link.symlink_to(book.file.path)

    restore(link, copy.path, book.clock)

    assert link.is_symlink()
    assert notes(book)[-1].startswith("Restored")


def test_the_command_asks_first(run: Run, book: Book, capsys: pytest.CaptureFixture[str]) -> None:
    copy = copy_book(book)
    jot(book, (), "after")

    assert run("restore", str(copy.path)) == 1
    told = capsys.readouterr()
    assert "Going back to it loses 1 entry" in told.out
    assert "Add --yes" in told.err
    assert notes(book)[-1] == "after"
    assert run("restore", "--dry-run", "--json", str(copy.path)) == 0
    assert json.loads(capsys.readouterr().out)["lost_entries"] == 1
    assert run("restore", "--yes", "--json", str(copy.path)) == 0
    assert json.loads(capsys.readouterr().out)["restored"] is True
    assert notes(book)[-1].startswith("Restored")


def test_a_copy_is_known_by_its_name_alone(run: Run, book: Book) -> None:
    copy = copy_book(book)
    jot(book, (), "written after the copy")

    assert run("restore", copy.path.name, "--yes") == 0

    assert "written after the copy" not in notes(book)


def test_the_command_lists_the_copies(
    run: Run, book: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("restore") == 0
    assert "There are no copies" in capsys.readouterr().err
    copy = copy_book(book)
    assert run("restore") == 0
    assert str(copy.path) in capsys.readouterr().out
    assert run("restore", "--json") == 0
    assert json.loads(capsys.readouterr().out)["copies"][0]["copy"] == str(copy.path)
