"""A clock that cannot be believed: said, never refused."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.clocking import clock_doubt
from logbook.actions.trays.dated_ahead import put_right_ahead
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
from logbook.store.reads.entries import read_ahead
from logbook.text import Refused
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
    assert "clock in doubt" in page(book)[0].words


def test_a_late_clock_stays_in_doubt_however_much_is_written(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    book.clock.at -= timedelta(hours=5)
    for number in range(3):
        jot(book, (), f"late {number}")
    assert book.clock_doubt()
    # each stands at the time of the clock, after which the right ones keep theirs
    assert [line.clock_in_doubt for line in page(book)] == [True, True, True, False]
    assert [line.note for line in page(book)] == ["late 0", "late 1", "late 2", "written in time"]
    assert {line.at for line in page(book)[:3]} == {book.now()}


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
    state = tray_page(book, 101).tray.state
    assert tray_page(book, 101).tray.status == "cut"
    assert (state.place, state.grams) != (None, None)
    # what nobody told is in its place after what was told, and keeps the time of the clock
    assert state.last_water == sown + timedelta(hours=1)
    (watered,) = (line for line in tray_page(book, 101).past if line.kind == "water")
    assert watered.at == sown - timedelta(days=20)
    assert tray_page(book, 102).tray.status == "growing"
    assert book.clock_doubt() == ""


def test_a_sowing_by_a_late_clock_has_the_time_of_that_clock_like_all_else(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    book.clock.at -= timedelta(days=7)
    sow(book, SowDraft("radish", trays=2))
    make_trial(book)
    sow_trial(book, "thick", SowTrialDraft())
    late = {(line.at, line.clock_in_doubt) for line in page(book) if line.kind == "sow"}
    assert late == {(book.now(), True)}


def test_one_entry_dated_ahead_dates_no_true_one_anew(book: Book) -> None:
    # given a jot and a watering of a clock that ran a year ahead
    assert isinstance(book.clock, FixedClock)
    sow(book, SowDraft("radish", trays=2, soaked="dry"))
    right = book.clock.at
    book.clock.at += timedelta(days=365)
    ahead = [jot(book, (), "of next year").act_id, did(book, "water", [102]).act_id]
    # when the clock is right again, what is written has its own time
    book.clock.at = right + timedelta(days=1)
    did(book, "water", [101])
    line = tray_page(book, 101).past[-1]
    assert (line.at, line.written_at, line.clock_in_doubt) == (book.now(), book.now(), True)
    assert tray_page(book, 101).tray.state.last_water == book.now()
    # and check names those that lie ahead, which one act puts right
    with book.reading() as reading:
        assert [each.id for each in read_ahead(reading, book.now())] == ahead
    done = put_right_ahead(book, book.now())
    assert done.words == "re-dated: 2 entries dated in the future, 102, 07:42"
    assert book.clock_doubt() == ""
    assert tray_page(book, 102).tray.state.last_water == book.now()
    with pytest.raises(Refused, match="No entry is dated in the future"):
        put_right_ahead(book, None)
    undo(book)
    assert book.clock_doubt()
    assert put_right_ahead(book, None).words == "struck out: 2 entries dated in the future, 102"
    assert tray_page(book, 102).tray.state.last_water is None


def test_once_the_network_has_set_the_clock_now_is_now(book: Book, tmp_path: Path) -> None:
    assert isinstance(book.clock, FixedClock)
    book.clock.at += timedelta(days=36_500)
    jot(book, (), "from the next century")
    book.clock = SystemClock()
    assert "The clock is behind" in _doubt(book, tmp_path)
    (tmp_path / "systemd" / "timesync").mkdir(parents=True)
    (tmp_path / "systemd" / "timesync" / "synchronized").touch()
    assert _doubt(book, tmp_path) == ""


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
