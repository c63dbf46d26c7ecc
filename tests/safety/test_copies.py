"""Copies made while the book is open."""

from __future__ import annotations

import lzma as xz
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.checking import mend
from logbook.actions.care.findings import kept_copies
from logbook.actions.care.keeping import NEVER_THINNED, copy_book, daily_copy
from logbook.actions.care.restoring import restore_preview
from logbook.actions.copies import Copy, copies_folder, copy_at, list_copies, thinned_words
from logbook.actions.trays.noticing import jot
from logbook.cli.care.safety import copy_target
from logbook.clock import FixedClock
from logbook.paths import private_folder
from logbook.settings import Settings
from logbook.store.file import copies, packing, rooms
from logbook.store.file.health import integrity_faults, row_counts
from logbook.store.file.leftovers import leftovers
from logbook.store.file.rooms import is_network
from logbook.text import Refused
from tests.safety.conftest import Run, notes, overwrite, unpacked


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def test_a_stick_that_is_not_there_gets_no_copy(book: Book, tmp_path: Path) -> None:
    stick = tmp_path / "usb"
    for named in (stick / "room.book", stick / "deep" / "room.book"):
        with pytest.raises(Refused, match="There is no folder"):
            copy_book(book, named)
    with pytest.raises(Refused, match="There is no folder"):
        copy_target(f"{stick}/")
    assert not stick.exists()
    stick.mkdir()
    assert copy_target(f"{stick}/") == stick


def test_a_copy_holds_every_row_and_is_its_owners_alone(book: Book) -> None:
    before = os.umask(0o000)
    try:
        copy = copy_book(book)
    finally:
        os.umask(before)

    assert dump(unpacked(copy)) == dump(book.file.path)
    assert copy.path.stat().st_mode & 0o777 == 0o600
    assert copy.path.parent.stat().st_mode & 0o777 == 0o700
    assert copy.size == copy.path.stat().st_size


def test_a_copy_is_packed_unless_its_name_says_otherwise(book: Book, tmp_path: Path) -> None:
    """The plain one is opened like the book; the packed one says what to do with it."""
    plain, packed = copy_book(book, tmp_path / "a.book"), copy_book(book, tmp_path / "a.book.xz")

    assert notes(open_book(plain.path)) == notes(open_book(unpacked(packed))) == notes(book)
    assert packed.size < plain.size / 4
    assert xz.decompress(packed.path.read_bytes()) == plain.path.read_bytes()
    with pytest.raises(Refused, match="is packed"):
        open_book(packed.path)


def test_what_was_packed_is_unpacked_again_before_the_copy_gets_its_name(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that keeps other bytes than were written."""
    monkeypatch.setattr(packing, "pieces_of", lambda packed: iter([packed.read_bytes()]))

    with pytest.raises(Refused, match="not what was read"):
        copy_book(book)

    assert list(copies_folder(book.file.path).iterdir()) == []


def test_a_python_without_xz_makes_plain_copies(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    packed = copy_book(book).path
    monkeypatch.setattr(packing, "find_spec", lambda _name: None)
    monkeypatch.setattr("logbook.actions.copies.can_pack", packing.can_pack)
    monkeypatch.setitem(sys.modules, "lzma", None)

    assert notes(open_book(copy_book(book).path)) == notes(book)
    with pytest.raises(Refused, match="built without xz"):
        restore_preview(book.file.path, packed)


def test_a_copy_is_made_while_another_program_is_writing(book: Book) -> None:
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as writer:
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("UPDATE entry SET note = 'half done'")

        copy = copy_book(book)

        writer.execute("ROLLBACK")
    assert notes(open_book(unpacked(copy))) == notes(book)


def test_a_copy_never_takes_the_place_of_a_file(book: Book, tmp_path: Path) -> None:
    there = tmp_path / "letter.txt"
    there.write_text("dear")
    copied: list[int] = []

    with pytest.raises(Refused, match="already a file"):
        copy_book(book, there, progress=lambda done, _total: copied.append(done))

    assert there.read_text() == "dear"
    assert copied == [], "a large book is not copied for nothing"


def test_a_file_that_comes_to_be_while_the_copy_is_made_is_not_touched(
    book: Book, tmp_path: Path
) -> None:
    there = tmp_path / "letter.txt"

    def write(_done: int, _total: int) -> None:
        there.write_text("dear")

    with pytest.raises(Refused, match="already a file"):
        copy_book(book, there, progress=write)

    assert there.read_text() == "dear"


def test_a_copy_is_synced_then_named_then_its_folder_is_synced(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "a.book"
    synced: list[tuple[str, bool]] = []
    sync = os.fsync

    def fsync(handle: int) -> None:
        name = Path(f"/proc/self/fd/{handle}").readlink().name
        synced.append((name.partition(".")[0], target.exists()))
        sync(handle)

    monkeypatch.setattr(os, "fsync", fsync)

    copies.copy_file(book.file.path, target)

    assert synced == [("a", False), (tmp_path.name, True)]


def test_the_book_is_not_copied_onto_itself(book: Book) -> None:
    before = dump(book.file.path)

    with pytest.raises(Refused, match="already a file"):
        copy_book(book, book.file.path)

    assert dump(book.file.path) == before


def test_a_folder_as_target_takes_the_copy(book: Book, tmp_path: Path) -> None:
    assert copy_book(book, tmp_path).path == tmp_path / "room-2026-04-14T073000.book.xz"


def test_no_copy_is_begun_where_there_is_no_room(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rooms, "free_bytes", lambda _folder: rooms.RESERVE_BYTES)

    with pytest.raises(Refused, match=r"no room in .*Nothing was written"):
        copy_book(book)

    assert list(copies_folder(book.file.path).iterdir()) == []


def test_a_damaged_book_gives_no_copy(book: Book, tmp_path: Path) -> None:
    overwrite(book.file.path, 4096 * 12, b"\xff" * 4096)

    with pytest.raises(Refused, match="damaged"):
        copy_book(book, tmp_path / "a.book")

    assert not list(tmp_path.glob("a.book*"))


def test_progress_is_told_up_to_the_end(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(copies, "PAGES_A_STEP", 4)
    told: list[tuple[int, int]] = []

    copy_book(book, progress=lambda done, total: told.append((done, total)))

    assert len(told) > 5
    assert told == sorted(told)
    assert told[-1][0] == told[-1][1]


def test_a_busy_writer_cannot_hold_up_a_copy_for_ever(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Writes between all steps of the first attempts; the last attempt holds them off."""
    monkeypatch.setattr(copies, "PAGES_A_STEP", 8)
    written: list[int] = []

    def write(_done: int, _total: int) -> None:
        with closing(sqlite3.connect(book.file.path, timeout=0, isolation_level=None)) as other:
            try:
                other.execute("UPDATE entry SET note = note || '.' WHERE id = 1")
            except sqlite3.OperationalError:
                return
            written.append(1)

    copy = copy_book(book, book.file.path.with_name("plain.book"), write)

    assert len(written) >= copies.MOST_RESTARTS
    assert integrity_faults(copy.path) == []
    assert notes(open_book(copy.path)) == notes(book)


def test_a_book_that_another_program_keeps_locked_is_not_waited_for_without_end(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("logbook.store.file.book_file.PATIENCE_SECONDS", 0.05)
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")

        with pytest.raises(Refused, match="Another program"):
            copy_book(book)


def test_what_a_killed_program_left_of_a_copy_is_swept_away(book: Book, tmp_path: Path) -> None:
    ended = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"],
                           capture_output=True, text=True, check=True)  # fmt: skip
    left = tmp_path / f"a.book.{ended.stdout.strip()}.unfinished"
    others = tmp_path / "a.book.1.unfinished"
    for each in (left, others):
        each.touch()

    copy_book(book, tmp_path / "a.book")

    assert not left.exists()
    assert others.exists()


def test_mending_removes_what_killed_programs_left_and_nothing_of_those_that_run(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ended = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"],
                           capture_output=True, text=True, check=True).stdout.strip()  # fmt: skip
    home = book.file.path.parent
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.chdir(home)
    left = [
        home / f"new.book.{ended}.unfinished", home / f"new.book.{ended}.unfinished-journal",
        home / f"mine.{os.getpid()}.unfinished", home / f"export.{ended}.unfinished", tmp_path / f"logbook-demo-{ended}-abc",
    ]  # fmt: skip
    kept = [
        home / f"all.{os.getppid()}.unfinished",
        tmp_path / "logbook-demo-abc",
        home / "unfinished",
    ]
    for each in (*left, *kept):
        if "export" in each.name or "demo" in each.name:
            each.mkdir()
            (each / "file").touch()
        else:
            each.touch()

    with monkeypatch.context() as another:
        another.setattr(os, "geteuid", lambda: home.stat().st_uid + 1)
        assert leftovers([home]) == []
    done = mend(book.file.path, book.clock)

    assert len(done) == len(left)
    assert not any(each.exists() for each in left)
    assert all(each.exists() for each in kept)


def test_a_folder_that_is_made_outlives_a_power_cut(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[tuple[str, bool]] = []

    def fsync(handle: int) -> None:
        name = Path(f"/proc/self/fd/{handle}").readlink()
        synced.append((name.name, any(name.iterdir())))

    monkeypatch.setattr(os, "fsync", fsync)
    private_folder(tmp_path / "a" / "b")

    assert synced == [(tmp_path.name, True), ("a", True)]


def test_the_daily_copy_is_made_once_a_day(book: Book, clock: FixedClock) -> None:
    first, second = daily_copy(book), daily_copy(book)
    clock.at += timedelta(days=1)
    third = daily_copy(book)

    assert first is not None
    assert second is None
    assert third is not None
    assert [copy.path.name for copy in list_copies(book.file.path)] == [
        "room-2026-04-15.book.xz",
        "room-2026-04-14.book.xz",
    ]


def test_a_year_of_daily_copies_is_rotated_and_copies_by_hand_stay(
    book: Book, clock: FixedClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    by_hand = copy_book(book)
    monkeypatch.setattr("logbook.actions.care.keeping._make", _touch)
    for _ in range(365):
        daily_copy(book)
        clock.at += timedelta(days=1)

    days = sorted(copy.day for copy in list_copies(book.file.path) if copy.day)

    assert by_hand.path.exists()
    assert len(days) <= 7 + 8 + 13
    assert (days[-1] - days[0]).days > 330


def _touch(_book: Book, target: Path, day: date, _progress: object) -> Copy:
    target.write_bytes(bytes(1000))
    return copy_at(target, day)


def test_all_copies_keep_to_a_share_of_the_disk_the_oldest_go_first(
    book: Book, clock: FixedClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """10 % of 100 kB: ten copies of 1 kB; one is by hand, one from before an update."""
    monkeypatch.setattr("logbook.actions.copies.disk_bytes", lambda _folder: 100_000)
    monkeypatch.setattr("logbook.actions.care.keeping._make", _touch)
    path = book.file.path
    before = path.with_name("room.book.before-0012")
    copies_folder(path).mkdir()
    by_hand = copies_folder(path) / "room-2026-01-01T073000.book"
    for place, each in enumerate((before, by_hand)):
        each.write_bytes(bytes(1000))
        os.utime(each, (place, place))
    made = []
    for _ in range(12):
        made.append(daily_copy(book, Settings(keep_daily=100)))
        clock.at += timedelta(days=1)

    assert [copy.thinned for copy in made if copy] == [0] * 8 + [1] * 4
    assert by_hand.exists()
    assert not before.exists()
    assert not copies_folder(path).joinpath("room-2026-04-16.book.xz").exists()
    assert made[-1] is not None
    assert thinned_words(made[-1]) == [
        "1 older copy removed: together they may take a share of the disk (copies_percent in the settings)."
    ]
    daily_copy(book, Settings(copies_percent=0))
    assert len([copy for copy in list_copies(path) if copy.daily]) == NEVER_THINNED
    (share,) = [
        each
        for each in kept_copies(path, clock, Settings(copies_percent=0))
        if "share" in each.about
    ]
    assert share.severity == "warning"


def test_a_clock_that_runs_behind_takes_no_newer_copy_away(book: Book, clock: FixedClock) -> None:
    settings = Settings(keep_daily=2, keep_weekly=0, keep_monthly=0)
    for _ in range(3):
        daily_copy(book, settings)
        clock.at += timedelta(days=1)
    clock.at -= timedelta(days=400)

    made = daily_copy(book, settings)

    assert made is not None
    assert made.path.exists()
    names = {copy.path.name for copy in list_copies(book.file.path)}
    assert {"room-2026-04-15.book.xz", "room-2026-04-16.book.xz"} <= names


def test_no_daily_copy_where_the_settings_ask_for_none(book: Book) -> None:
    assert daily_copy(book, Settings(keep_daily=0)) is None


def test_a_common_folder_keeps_the_copies_of_two_books_apart(tmp_path: Path) -> None:
    settings = Settings(copies=str(tmp_path / "all"))

    one = copies_folder(tmp_path / "a" / "room.book", settings)
    other = copies_folder(tmp_path / "b" / "room.book", settings)

    assert one.parent == other.parent == tmp_path / "all"
    assert one != other


def test_the_command_prints_where_the_copy_is(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("copy") == 0
    assert "The copy is " in capsys.readouterr().out
    assert run("copy", "--daily", "--json") == 0
    assert '"daily": true' in capsys.readouterr().out
    assert run("copy", "--daily") == 0
    assert capsys.readouterr().out == ""


def test_a_copy_of_a_book_with_a_write_ahead_log_has_all_and_needs_none(book: Book) -> None:
    with closing(sqlite3.connect(book.file.path)) as other:
        other.execute("PRAGMA journal_mode=WAL")
        jot(book, (), "in the log")

        copy = copy_book(book)

        plain = unpacked(copy)
        assert "in the log" in notes(open_book(plain))
    assert plain.read_bytes()[18:20] == b"\x01\x01"
    with closing(sqlite3.connect(plain)) as connection:
        assert row_counts(connection)["entry"] == len(notes(book))


@pytest.mark.parametrize("kind", ["nfs4", "cifs", "9p", "fuse.sshfs"])
def test_network_disks_are_known(kind: str) -> None:
    assert is_network(kind)
    assert not is_network("ext4")
