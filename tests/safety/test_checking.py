"""What a check finds, and what it says to do."""

from __future__ import annotations

import json
import os
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from functools import partial
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.checking import check, mend, start_check, wrong_summaries
from logbook.actions.care.findings import Finding
from logbook.actions.care.keeping import copy_book, daily_copy
from logbook.actions.care.restoring import restore
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.round import the_round
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.cli.app import run as command
from logbook.cli.trays.brief import brief_words
from logbook.clock import FixedClock
from logbook.paths import state_folder
from logbook.store.file import health, rooms
from logbook.text import Refused
from logbook.ways import in_shell
from tests.safety.conftest import NOW, Run, overwrite
from tests.small_disk import small_disk


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, Path]:
    """A machine whose clock was set, with its own disk."""
    timesync = tmp_path / "run" / "systemd" / "timesync"
    timesync.mkdir(parents=True)
    (timesync / "synchronized").touch()
    mounts = tmp_path / "mounts"
    mounts.write_text("/dev/sda1 / ext4 rw 0 0\n")
    monkeypatch.setattr(rooms, "EMPTIED", ())
    return {"run": tmp_path / "run", "mounts": mounts}


def sql(book: Book, *statements: str) -> None:
    """Change the file as another program might."""
    with closing(sqlite3.connect(book.file.path, isolation_level=None)) as connection:
        for statement in statements:
            connection.execute(statement)


def copied(book: Book) -> None:
    copy = daily_copy(book)
    assert copy is not None
    os.utime(copy.path, (NOW.timestamp(), NOW.timestamp()))


def found(book: Book, machine: dict[str, Path], about: str) -> Finding:
    findings = check(book.file.path, book.clock, **machine)  # type: ignore[arg-type]
    return next(each for each in findings if each.about == about)


def test_a_good_book_is_good_throughout(book: Book, machine: dict[str, Path]) -> None:
    copied(book)

    findings = check(book.file.path, book.clock, **machine)  # type: ignore[arg-type]

    assert {each.about for each in findings if each.severity != "good"} == {"copies elsewhere"}
    assert [each.about for each in findings] == [
        "integrity", "revision", "journal", "clock", "ahead", "references", "days", "summaries", "search", "permissions",
        "room", "size", "disk", "copies", "copies share", "copies elsewhere", "sqlite",
    ]  # fmt: skip


Spoil = Callable[[Book, dict[str, Path], pytest.MonkeyPatch], object]

SPOILT: dict[str, tuple[Spoil, str, str, str]] = {
    "a page of noise": (
        lambda book, _m, _p: overwrite(book.file.path, 4096 * 12, b"\xff" * 4096),
        "integrity", "bad", "newest good copy is .*logbook restore",
    ),
    "an index that lost a row": (
        lambda book, _m, _p: sql(
            book,
            "PRAGMA writable_schema=ON",
            "UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema "
            "WHERE name = 'ix_entry_act_id') WHERE name = 'ix_entry_at'",
        ),
        "integrity", "bad", "newest good copy",
    ),
    "a row that points to nothing": (
        lambda book, _m, _p: sql(book, "UPDATE entry SET batch_id = 77 WHERE id = 1"),
        "references", "bad", "go back to a copy",
    ),
    "an older revision": (
        lambda book, _m, _p: sql(book, "UPDATE alembic_version SET version_num = '0007'"),
        "revision", "warning", "Open the book once",
    ),
    "a write-ahead log": (
        lambda book, _m, _p: sql(book, "PRAGMA journal_mode=WAL"),
        "journal", "warning", "logbook check --mend",
    ),
    "a clock that runs behind": (
        lambda book, _m, _p: setattr(book, "clock", FixedClock(NOW - timedelta(hours=3))),
        "clock", "warning", "timedatectl",
    ),
    "a clock that the network has not set": (
        lambda _b, m, _p: (m["run"] / "systemd" / "timesync" / "synchronized").unlink(),
        "clock set", "warning", "Check the network",
    ),
    "a summary that is not the fold": (
        lambda book, _m, _p: sql(book, "UPDATE tray SET cut_grams = 99 WHERE number = 101"),
        "summaries", "warning", "logbook check --mend",
    ),
    "words that the entries do not say": (
        lambda book, _m, _p: sql(book, "UPDATE entry_words SET words = 'a darker corner'"),
        "search", "warning", "logbook check --mend",
    ),
    "an index that lacks words": (
        lambda book, _m, _p: sql(book, "DELETE FROM entry_index_data WHERE id > 10"),
        "search", "warning", "logbook check --mend",
    ),
    "a book that others may read": (
        lambda book, _m, _p: book.file.path.chmod(0o644),
        "permissions", "warning", "chmod 600",
    ),
    "a book that may not be written": (
        lambda _b, _m, p: p.setattr("os.access", lambda _path, _mode: False),
        "permissions", "bad", r"^Run chmod u\+rwX \S+room\.book \S+home$",
    ),
    "a folder that is another's": (
        lambda _b, _m, p: (
            p.setattr("os.access", lambda _path, _mode: False),
            p.setattr("os.geteuid", lambda: 4711),
        ),
        "permissions", "bad", "someone else; leave it as it is",
    ),
    "another's book in a shared folder": (
        lambda book, _m, p: (
            p.setattr("os.access", lambda path, _mode: path != book.file.path),
            p.setattr("os.geteuid", lambda: 4711),
        ),
        "permissions", "bad", r"^\S+room\.book belongs to someone else",
    ),
    "a folder of one's own that root has made": (
        lambda book, _m, p: (
            p.setattr("os.access", lambda _path, _mode: False),
            p.setattr("os.geteuid", lambda: 4711),
            p.setattr(Path, "home", lambda: book.file.path.parents[1]),
        ),
        "permissions", "bad", r"^Run sudo chown \$USER \S+room\.book \S+home$",
    ),
    "a disk that is mounted read-only": (
        lambda _b, _m, p: (
            p.setattr("os.access", lambda _path, _mode: False),
            p.setattr("logbook.actions.care.findings.is_read_only", lambda _folder: True),
        ),
        "permissions", "bad", "another disk first",
    ),
    "a book in memory": (
        lambda _b, m, _p: m["mounts"].write_text("tmpfs / tmpfs rw 0 0\n"),
        "disk", "warning", "card or USB disk",
    ),
    "a system on an overlay": (
        lambda _b, m, _p: m["mounts"].write_text("overlay / overlay rw 0 0\n"),
        "disk", "warning", "card or USB disk",
    ),
    "a folder that the system empties": (
        lambda book, _m, p: p.setattr(rooms, "EMPTIED", (book.file.path.parents[1],)),
        "disk", "warning", "card or USB disk",
    ),
    "a disk that is nearly full": (
        lambda _b, _m, p: p.setattr(
            "logbook.actions.care.findings.free_bytes", lambda _f: rooms.RESERVE_BYTES * 3
        ),
        "room", "warning", "Make room",
    ),
    "a disk that is full": (
        lambda _b, _m, p: p.setattr("logbook.actions.care.findings.free_bytes", lambda _f: 5000),
        "room", "bad", "Make room",
    ),
    "a network disk": (
        lambda book, m, _p: m["mounts"].write_text(
            f"/dev/sda1 / ext4 rw 0 0\nhost:/x {book.file.path.parent} nfs4 rw 0 0\n"
        ),
        "disk", "warning", "own disk",
    ),
    "a copy of last month": (
        lambda book, _m, _p: setattr(book, "clock", FixedClock(NOW + timedelta(days=31))),
        "copies", "warning", "logbook copy",
    ),
    "an old SQLite": (
        lambda _b, _m, p: p.setattr(sqlite3, "sqlite_version_info", (3, 34, 1)),
        "sqlite", "bad", "Update the system",
    ),
}  # fmt: skip


def test_an_index_that_hides_a_weight_from_its_tray_is_found_by_the_daily_check(
    book: Book, machine: dict[str, Path]
) -> None:
    change = "UPDATE sqlite_schema SET sql = {} WHERE name = 'ix_entry_tray_tray_id'"
    none = " WHERE entry_id < 0"
    sql(book, "PRAGMA writable_schema=ON", change.format(f"sql || '{none}'"))
    weigh(book, (102,), 240.0, part=True)
    sql(book, "PRAGMA writable_schema=ON", change.format(f"replace(sql, '{none}', '')"))
    assert not any(
        "240" in line.words for line in tray_page(open_book(book.file.path, book.clock), 102).past
    )
    found = start_check(book, look=partial(check, **machine))  # type: ignore[arg-type]

    assert found[0].about == "integrity"
    assert "missing from index ix_entry_tray_tray_id" in found[0].words
    with pytest.raises(Refused, match="was found damaged"):
        jot(book, (), "after")


@pytest.mark.parametrize("name", SPOILT)
def test_each_fault_is_found_with_what_to_do(
    name: str, book: Book, machine: dict[str, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    spoil, about, severity, todo = SPOILT[name]
    copied(book)

    spoil(book, machine, monkeypatch)

    finding = found(book, machine, about)
    assert finding.severity == severity, finding
    assert re.search(todo, in_shell(finding.todo)), finding


def test_a_copy_on_another_disk_is_known_and_its_age_is_said(
    book: Book, machine: dict[str, Path]
) -> None:
    """Also while the stick lies in a drawer; the banner says it once that copy is a week old."""
    copied(book)
    assert isinstance(book.clock, FixedClock)
    assert found(book, machine, "copies elsewhere").words == (
        "No copy on another disk is known; one broken card would lose everything."
    )
    health.write_elsewhere(book.file.path, book.now())
    book.clock.at += timedelta(days=3)
    finding = found(book, machine, "copies elsewhere")
    assert (finding.severity, finding.words) == (
        "good", "The newest copy on another disk is 3 days old.",
    )  # fmt: skip

    sql(book, "UPDATE book SET begun_as = ''")
    assert "copy" not in next(brief_words(the_round(book), book))
    book.clock.at += timedelta(days=9)
    assert found(book, machine, "copies elsewhere").severity == "note"
    assert next(brief_words(the_round(book), book)).endswith(
        "the newest copy on another disk is 12 days old"
    )


def test_a_copy_to_another_disk_is_remembered(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rooms, "RESERVE_BYTES", 0)
    copy_book(book)
    assert health.read_elsewhere(book.file.path) is None
    with small_disk(book.file.path.parent / "stick") as stick:
        copy_book(book, stick)
    assert health.read_elsewhere(book.file.path) == book.now()


def test_check_says_what_is_taken(book: Book, machine: dict[str, Path]) -> None:
    copied(book)
    kept = state_folder() / "drafts" / "x"
    kept.mkdir(parents=True)
    (kept / "one").write_bytes(bytes(1_300_000))
    words = found(book, machine, "size").words
    assert words.endswith("drafts and the program's other files 1.3 MB.")
    assert "0 kB" not in words


def test_a_book_without_a_copy_is_warned_of(book: Book, machine: dict[str, Path]) -> None:
    assert found(book, machine, "copies").severity == "warning"


def test_a_machine_that_does_not_tell_of_its_clock_is_not_warned_of(tmp_path: Path) -> None:
    assert health.clock_was_set(tmp_path) is None


def test_a_space_in_a_mount_point_is_read(tmp_path: Path) -> None:
    mounts = tmp_path / "mounts"
    mounts.write_text("x / ext4 rw 0 0\ny /media/my\\040stick vfat rw 0 0\n")

    assert rooms.file_system_of(Path("/media/my stick/room.book"), mounts) == "vfat"
    assert rooms.file_system_of(Path("/media/my"), mounts) == "ext4"


def test_a_large_book_is_checked_table_by_table(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(health, "WHOLE_BYTES", 0)
    assert health.integrity_faults(book.file.path) == []
    overwrite(book.file.path, 4096 * 12, b"\xff" * 4096)
    faults = health.integrity_faults(book.file.path)
    assert faults
    assert all("\n" not in fault and "***" not in fault for fault in faults)


def test_mending_puts_right_what_can_be(book: Book, machine: dict[str, Path]) -> None:
    copied(book)
    book.file.path.chmod(0o644)
    sql(book, "UPDATE tray SET live = 1, ended_at = NULL WHERE number = 101",
        "DELETE FROM entry_words",
        "PRAGMA journal_mode=WAL")  # fmt: skip
    assert wrong_summaries(book)

    done = mend(book.file.path, book.clock)

    assert len(done) == 4
    assert wrong_summaries(book) == []
    findings = check(book.file.path, book.clock, **machine)  # type: ignore[arg-type]
    assert {each.severity for each in findings} == {"good", "note"}
    assert mend(book.file.path, book.clock) == []


def test_the_check_at_start_is_made_once_a_day_and_leaves_no_trace_in_the_book(
    book: Book, clock: FixedClock, tmp_path: Path
) -> None:
    before = book.file.path.read_bytes()
    looked: list[Path] = []

    def look(path: Path, *_rest: object, **_more: object) -> tuple[Finding, ...]:
        looked.append(path)
        return (Finding("room", "warning", "Little room."), Finding("integrity", "good", "Fine."))

    first = start_check(book, look=look)
    again = start_check(book, look=look)
    clock.at += timedelta(days=1)
    start_check(book, look=look)

    assert [each.about for each in first] == ["room"]
    assert again == ()
    assert len(looked) == 2
    assert book.file.path.read_bytes() == before
    (stamp,) = (tmp_path / "state" / "growroom-logbook").iterdir()
    assert stamp.stat().st_mode & 0o777 == 0o600
    assert stamp.parent.parent.stat().st_mode & 0o777 == 0o700


def test_a_book_found_damaged_is_read_and_not_written_until_it_is_replaced(book: Book) -> None:
    copy = copy_book(book)
    overwrite(book.file.path, 4096 * 12, b"\xff" * 4096)

    start_check(book)

    for each in (book, open_book(book.file.path, book.clock)):
        with pytest.raises(Refused, match=r"newest good copy is .*T073000.book") as refused:
            jot(each, (), "more")
        said = str(refused.value)
        assert re.search(
            r" was found damaged and is not written to\. The check said: .*\w\. T", said
        )
        assert "can be read" not in said
    restore(book.file.path, copy.path, book.clock)
    jot(open_book(book.file.path, book.clock), (), "more")


@pytest.mark.parametrize("said", ["database is locked", "database or disk is full", "readonly"])
def test_what_keeps_a_check_from_looking_is_no_damage(
    said: str, book: Book, machine: dict[str, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Writing goes on, nobody is sent to a copy, and the next start looks again."""
    copied(book)
    with monkeypatch.context() as patched:

        def obstacle(*_given: object, **_more: object) -> list[str]:
            raise sqlite3.OperationalError(said)

        patched.setattr("logbook.actions.copies.integrity_faults", obstacle)
        (one,) = start_check(book, look=partial(check, **machine))  # type: ignore[arg-type]
    assert (one.about, one.severity) == ("file", "bad")
    assert "copy" not in f"{one.words} {one.todo}"
    assert book.damage == ""
    assert health.read_stamp(book.file.path) is None

    jot(book, (), "more")


def test_what_only_reads_badly_sends_nobody_to_a_copy(book: Book) -> None:
    copied(book)
    sql(book, "UPDATE entry SET at = 'noon or so'")

    with pytest.raises(Refused, match="finds nothing wrong with the file itself") as refused:
        the_round(book)

    assert "restore" not in in_shell(str(refused.value))
    start_check(book)
    assert book.damage == ""


def test_a_check_does_not_hold_up_a_writer_for_long(book: Book) -> None:
    """Between two handfuls of trays the book is free."""

    def write(_seen: int, _total: int) -> None:
        with closing(sqlite3.connect(book.file.path, timeout=0)) as other, other:
            other.execute("UPDATE book SET name = name || '.'")

    assert wrong_summaries(book, write) == []


def test_the_command_tells_and_ends_with_one_for_a_bad_book(
    run: Run, book: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("check") == 0
    assert "The file is whole." in capsys.readouterr().out
    assert run("check", "--quick", "--json") == 0
    assert json.loads(capsys.readouterr().out)["findings"][0]["about"] == "integrity"
    book.file.path.chmod(0o644)
    assert run("check", "--mend") == 0
    assert "mended   Only you can read" in capsys.readouterr().out
    overwrite(book.file.path, 4096 * 12, b"\xff" * 4096)
    assert run("check") == 1
    assert "BAD      The book is damaged" in capsys.readouterr().out


def test_a_check_of_nothing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="There is no book at"):
        check(tmp_path / "none.book")


@pytest.mark.parametrize(
    ("made", "said"),
    [("", "the file is empty"), ("CREATE TABLE song (name TEXT)", "not a book of this program")],
)
def test_what_is_no_book_is_bad(
    made: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "other.book"
    path.touch()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(made)

    code = command(["--book", str(path), "check"])

    lines = capsys.readouterr().out.splitlines()
    assert code == 1
    assert lines[0].startswith("BAD ")
    assert said in lines[0]
    assert "Name your book with --book" in lines[1]


def test_a_check_of_a_newer_book_is_refused_as_everywhere(book: Book) -> None:
    sql(book, "UPDATE alembic_version SET version_num = '9999'")
    before = book.file.path.read_bytes()

    for quick in (True, False):
        with pytest.raises(Refused, match="written by a newer logbook"):
            check(book.file.path, quick=quick)

    assert book.file.path.read_bytes() == before


def test_a_check_of_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="is a folder; name a file in it"):
        check(tmp_path)
