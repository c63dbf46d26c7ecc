"""A clock that cannot be believed: said, never refused."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.clocking import clock_doubt
from logbook.actions.doing import jot
from logbook.actions.viewing import page
from logbook.clock import FixedClock, SystemClock


def test_a_clock_behind_the_newest_entry_is_in_doubt(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    assert clock_doubt(book) == ""
    book.clock.at -= timedelta(hours=5)
    assert clock_doubt(book).startswith("The clock is behind: the newest entry was written")
    # and writing goes on, marked as such
    jot(book, (), "written with a clock that is late")
    marks = {line.note: line.clock_in_doubt for line in page(book)}
    assert marks == {"written in time": False, "written with a clock that is late": True}
    assert "clock in doubt" in page(book)[0].words


def test_two_machines_may_be_a_minute_apart(book: Book) -> None:
    assert isinstance(book.clock, FixedClock)
    jot(book, (), "written in time")
    book.clock.at -= timedelta(minutes=1)
    assert clock_doubt(book) == ""


def test_a_clock_that_the_network_has_not_set_is_in_doubt(book: Book, tmp_path: Path) -> None:
    (tmp_path / "systemd" / "timesync").mkdir(parents=True)
    assert clock_doubt(book, run=tmp_path) == ""  # a rehearsal's clock stands where it was put
    book.clock = SystemClock()
    assert "network has not set the clock" in clock_doubt(book, run=tmp_path)
    (tmp_path / "systemd" / "timesync" / "synchronized").touch()
    assert clock_doubt(book, run=tmp_path) == ""
