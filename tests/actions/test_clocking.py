"""A clock that cannot be believed: said, never refused."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.clocking import clock_doubt
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard, move
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import page
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.actions.trials.sowing import SowTrialDraft, sow_trial
from logbook.clock import FixedClock, SystemClock
from tests.trial_room import make_trial


def _doubt(book: Book, run: Path) -> str:
    with book.reading() as reading:
        return clock_doubt(reading, run)


def test_a_clock_behind_the_newest_entry_is_in_doubt(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    assert book.clock_doubt() == ""
    book.clock.at -= timedelta(hours=5)
    assert book.clock_doubt().startswith("The clock is behind: the newest entry was written")
    # and writing goes on, marked as such
    jot(book, (), "written with a clock that is late")
    marks = {line.note: line.clock_in_doubt for line in page(book)}
    assert marks == {"written in time": False, "written with a clock that is late": True}
    assert "clock in doubt" in page(book)[-1].words


def test_a_late_clock_stays_in_doubt_however_much_is_written(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    book.clock.at -= timedelta(hours=5)
    for number in range(3):
        jot(book, (), f"late {number}")
    assert book.clock_doubt()
    assert [line.clock_in_doubt for line in page(book)] == [False, True, True, True]
    assert [line.note for line in page(book)] == ["written in time", "late 0", "late 1", "late 2"]


def test_what_a_late_clock_writes_is_never_refused_and_keeps_its_order(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    sow(book, SowDraft("radish", trays=2))
    sown = book.now()
    book.clock.at -= timedelta(days=20)
    did(book, "weight_off", [101])
    did(book, "light_on", [101], sown + timedelta(hours=1))  # the time that was asked for
    did(book, "water", [101])
    move(book, [101], "Rack 1/Shelf 2")
    weigh(book, [101], 280)
    discard(book, [102], "mould")
    undo(book)
    book.clock.at = sown + timedelta(hours=2)
    lines = [line for line in tray_page(book, 101).past if line.id > 1]
    assert [line.id for line in lines] == sorted(line.id for line in lines)
    assert tray_page(book, 101).status == "cut"
    assert tray_page(book, 102).status == "growing"
    assert book.clock_doubt() == ""


def test_a_sowing_by_a_late_clock_comes_after_what_is_known_like_all_else(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    known = book.now()
    book.clock.at -= timedelta(days=7)
    sow(book, SowDraft("radish", trays=2))
    make_trial(book)
    sow_trial(book, "thick", SowTrialDraft())
    book.clock.at = known
    assert {line.at for line in page(book) if line.kind == "sow"} == {known}


def test_a_year_mistyped_with_a_clock_in_doubt_is_not_carried_on(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    sow(book, SowDraft("radish", trays=3))
    known = book.now()
    book.clock.at -= timedelta(days=7)
    told, mistyped = known + timedelta(days=3), known + timedelta(days=368)
    did(book, "water", [101], told)
    did(book, "water", [102], mistyped)
    did(book, "water", [103])
    book.clock.at = told
    (line,) = (line for line in page(book) if line.trays == (103,) and line.kind == "water")
    assert line.at == told


def test_a_clock_that_ran_ahead_is_forgotten_when_what_it_wrote_is_struck(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    right = book.clock.at
    book.clock.at += timedelta(days=400)
    jot(book, (), "from next year")
    book.clock.at = right
    assert book.clock_doubt()
    undo(book)
    assert book.clock_doubt() == ""


def test_two_machines_may_be_a_minute_apart(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    book.clock.at -= timedelta(minutes=1)
    assert book.clock_doubt() == ""


def test_a_clock_that_the_network_has_not_set_is_in_doubt(book: Book, tmp_path: Path) -> None:
    (tmp_path / "systemd" / "timesync").mkdir(parents=True)
    assert _doubt(book, tmp_path) == ""  # a rehearsal's clock stands where it was put
    book.clock = SystemClock()
    assert "network has not set the clock" in _doubt(book, tmp_path)
    (tmp_path / "systemd" / "timesync" / "synchronized").touch()
    assert _doubt(book, tmp_path) == ""
