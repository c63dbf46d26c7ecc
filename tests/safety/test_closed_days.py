"""Days that are over are closed by a digest: nothing that a grower does changes one, anything else shows."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path
from shutil import copyfile

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.actions.book import Book, open_book
from logbook.actions.care.checking import look_after
from logbook.actions.care.closing import close_days, days_not_as_closed
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import redo
from logbook.clock import FixedClock, ToldClock
from logbook.exchange.exporting import export_book
from logbook.exchange.importing import import_book
from logbook.exchange.manifest import NAME, Manifest, read_manifest
from logbook.store.closed_days import Digester, read_closed_days, wrong_days
from logbook.store.file.book_file import BookFile
from logbook.store.file.copies import copy_file
from logbook.store.file.restoring import loss_of
from logbook.store.rows import Rows
from logbook.text import Refused
from tests.actions.days import stand_at
from tests.actions.test_random_acts import ALL, FEW, INTENTS, Intent, odd_crop, perform
from tests.assets.make_book import fill


def wrong(book: Book, path: Path | None = None) -> list[tuple[int, int]]:
    """The first and last entries of the days that are not as they were closed."""
    days = days_not_as_closed(BookFile(path) if path else book.file, book.today())
    return [(each.first_id, each.last_id) for each in days]


def closed(book: Book) -> list[tuple[int, int]]:
    with book.reading() as reading:
        return [(each.first_id, each.last_id) for each in read_closed_days(reading)]


NIGHTS = st.builds(replace, INTENTS, kind=st.just("night"), hours=st.integers(-30, 50))
REDONE = st.builds(replace, INTENTS, kind=st.just("redo"))


@FEW
@given(wanted=st.tuples(ALL, st.lists(NIGHTS | REDONE, min_size=4, max_size=8)).flatmap(
    lambda parts: st.permutations([*parts[0], *parts[1]])))  # fmt: skip
def test_whatever_is_done_no_closed_day_is_changed_by_it(
    new_book: Callable[[], Book], tmp_path_factory: pytest.TempPathFactory, wanted: list[Intent]
) -> None:
    """Struck, undone, redone, replaced, told late, by a clock that also goes back; taken to a new book."""
    book = new_book()
    odd_crop(book)
    stand_at(book, "2026-04-01 08:00")
    sow(book, SowDraft("field test", 3, lot="R-17"))
    for each in wanted:
        if each.kind == "night":
            assert isinstance(book.clock, FixedClock)
            book.clock.at += timedelta(hours=each.hours)
            close_days(book)
        elif each.kind == "redo":
            try:
                redo(book)
            except Refused:
                continue
        else:
            perform(book, each)
    assert wrong(book) == []
    folder = tmp_path_factory.mktemp("taken")
    export_book(book, folder / "files")
    other, _ = import_book(folder / "files", folder / "new.book", book.clock)
    assert closed(other) == closed(book)
    assert wrong(other) == []


@pytest.fixture(scope="module")
def closed_book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """A book with rows in every table, of which all days are over and closed; to be copied."""
    path = tmp_path_factory.mktemp("closed") / "room.book"
    fill(path)
    book = open_book(path, FixedClock(open_book(path).about.made_at + timedelta(days=30)), "ab")
    close_days(book)
    assert wrong(book) == []
    return book


@pytest.fixture
def past(closed_book: Book, tmp_path: Path) -> Book:
    copied = Path(copyfile(closed_book.file.path, tmp_path / "room.book"))
    return open_book(copied, FixedClock(closed_book.now()), "ab")


def test_a_day_is_closed_once_it_is_over_and_no_day_twice(past: Book) -> None:
    days = closed(past)
    ends = [last for _, last in days]

    assert [first for first, _ in days] == [1, *(last + 1 for last in ends[:-1])]
    jot(past, (), "today")
    assert close_days(past) == 0
    assert isinstance(past.clock, FixedClock)
    past.clock.at += timedelta(days=1)
    assert look_after(past) is not None
    assert closed(past) == [*days, (ends[-1] + 1, ends[-1] + 1)]


def test_a_clock_that_runs_ahead_or_back_holds_up_no_closing(past: Book) -> None:
    """What it wrote ahead stands alone; what it writes an hour behind belongs to the day it was."""
    assert isinstance(past.clock, FixedClock)
    last = closed(past)[-1][1]
    for hours in (0, 24 * 5000, -24 * 5000, -30, 30, -30, 31):
        past.clock.at += timedelta(hours=hours)
        jot(past, (), "x")
    past.clock.at += timedelta(days=1)

    close_days(past)

    assert closed(past)[-3:] == [(last + 1, last + 1), (last + 2, last + 2), (last + 3, last + 7)]
    assert wrong(past) == []


def test_a_real_book_under_a_pretended_time_is_left_alone(past: Book) -> None:
    jot(past, (), "today")
    past.clock = ToldClock(past.now() + timedelta(days=3))
    assert close_days(past) == 0


def test_every_value_that_an_entry_carries_is_in_the_digest(past: Book) -> None:
    """Each column of each table that belongs to entries, changed in one row by another program."""
    with past.reading() as reading:
        parts = Digester(reading).parts
        taken = {
            part.table: (
                [name for name, _, _ in part.columns],
                reading.rows(f"SELECT count(*) FROM {part.table}")[0][0],
            )
            for part in parts
        }
    assert {"entry", "entry_tray", "weight", "watering", "look", "light_spot", "batch_lot"} <= set(
        taken
    )
    unseen = []
    with closing(sqlite3.connect(past.file.path, isolation_level=None)) as other:
        for table, (columns, count) in taken.items():
            assert count
            for column in columns:
                other.execute("BEGIN IMMEDIATE")
                try:
                    other.execute(
                        f'UPDATE "{table}" SET "{column}" = CASE WHEN "{column}" IS NULL THEN 1 WHEN '
                        f'typeof("{column}") = \'text\' THEN "{column}" || \'x\' ELSE "{column}" + 100 '
                        f'END WHERE "{column}" IS (SELECT max("{column}") FROM "{table}")'
                    )
                    found = read_closed_days_wrong(other)
                except sqlite3.IntegrityError:
                    found = True
                other.execute("ROLLBACK")
                if not found:
                    unseen.append((table, column))
    assert unseen == []


def read_closed_days_wrong(connection: sqlite3.Connection) -> bool:
    reading = Rows(connection)
    return bool(wrong_days(reading, read_closed_days(reading)))


SLIPS = {
    "a weight": "UPDATE weight SET grams = grams + 0.1 WHERE entry_id = {}",
    "a line that is gone": "DELETE FROM entry WHERE id = {}",
    "a tray that is gone from a line": "DELETE FROM entry_tray WHERE entry_id = {}",
    "a line that was put in": (
        "UPDATE entry SET id = 9999 WHERE id = {0}; INSERT INTO entry SELECT {0}, kind, at, written_at, "
        "\"by\", 'another', chore, stage, batch_id, place_id, strikes_id, act_id, clock_in_doubt "
        "FROM entry WHERE id = 9999"
    ),
    "a moment": "UPDATE entry SET at = at - 1 WHERE id = {}",
}


@pytest.mark.parametrize("slip", SLIPS)
def test_what_another_program_changed_is_named_by_its_day(
    past: Book, slip: str, capsys: pytest.CaptureFixture[str]
) -> None:
    from logbook.cli.app import run

    with past.reading() as reading:
        entry, day = reading.rows(
            "SELECT e.id, d.day FROM entry e JOIN weight w ON w.entry_id = e.id "
            "JOIN closed_day d ON e.id BETWEEN d.first_id AND d.last_id ORDER BY e.id LIMIT 1"
        )[0]
    with closing(sqlite3.connect(past.file.path)) as other:
        other.executescript(SLIPS[slip].format(entry))

    assert [first <= entry <= last for first, last in wrong(past)] == [True]
    assert run(["--book", str(past.file.path), "check"]) == 1
    said = capsys.readouterr().out
    assert f"What was written on {date.fromisoformat(day):%-d %b %Y} (entries " in said


def test_digests_that_were_changed_or_are_missing_show_too(past: Book) -> None:
    days = closed(past)
    assert len(days) > 3
    for slip in ("DELETE FROM closed_day WHERE last_id = {}",
                 "UPDATE closed_day SET sha256 = sha256 || 'x' WHERE last_id = {}"):  # fmt: skip
        with closing(sqlite3.connect(past.file.path)) as other:
            before = other.execute("SELECT * FROM closed_day").fetchall()
            other.executescript(slip.format(days[1][1]))
            assert days[2] in wrong(past)
            other.execute("DELETE FROM closed_day")
            other.executemany("INSERT INTO closed_day VALUES (?, ?, ?, ?)", before)
            other.commit()
    assert wrong(past) == []


def test_an_export_that_was_changed_is_refused_with_the_day(past: Book, tmp_path: Path) -> None:
    """The manifest's own sums made anew as well."""
    files = tmp_path / "files"
    export_book(past, files)
    path = files / "weight.csv"
    path.write_text(path.read_text("utf-8").replace("90.5", "95.5"), "utf-8", newline="")
    manifest = read_manifest((files / NAME).read_bytes())
    notes = tuple(
        replace(note, sha256=sha256(path.read_bytes()).hexdigest())
        if note.table == "weight"
        else note
        for note in manifest.files
    )
    (files / NAME).write_text(Manifest(manifest.program, manifest.revision, notes).text(), "utf-8")

    with pytest.raises(Refused, match=r"What was written on 29 Mar 2026 \(entries \d+ to \d+\)"):
        import_book(files, tmp_path / "new.book", past.clock)

    assert not (tmp_path / "new.book").exists()


def test_a_copy_from_before_a_day_was_closed_lacks_nothing(past: Book, tmp_path: Path) -> None:
    copy_file(past.file.path, tmp_path / "a.book")
    jot(past, (), "x")
    copy_file(past.file.path, tmp_path / "b.book")
    assert isinstance(past.clock, FixedClock)
    past.clock.at += timedelta(days=1)
    assert close_days(past) == 1

    loss = loss_of(past.file.path, tmp_path / "b.book")

    assert loss is not None
    assert (loss.entries, loss.rows) == (0, {})


def test_a_quick_look_takes_every_day_within_four_weeks(past: Book) -> None:
    first = closed(past)[0]
    with closing(sqlite3.connect(past.file.path)) as other, other:
        other.execute("UPDATE entry SET note = 'x' WHERE id = 1")
        other.executemany(
            "INSERT INTO closed_day VALUES (?, ?, '2026-05-01', '')",
            [(10_000 + day, 9_999 + day) for day in range(60)],
        )
    seen = [
        day for day in range(28)
        if any((each.first_id, each.last_id) == first for each in days_not_as_closed(
            past.file, past.today() + timedelta(days=day), quick=True))
    ]  # fmt: skip
    assert len(seen) == 1


def test_the_timer_s_command_closes_days(book: Book) -> None:
    from logbook.cli.app import run

    named = ["--book", str(book.file.path), "--now", "2026-04-15T07:30Z"]
    assert run([*named, "copy", "--daily"]) == 0
    assert closed(book) == [(1, 5)]
