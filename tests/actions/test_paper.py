"""A holiday on paper: what was done before a tray was cut is written after the cut."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.care.checking import wrong_summaries
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import look
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.trays.looks import Look
from logbook.text import Refused
from tests.ui.list_room import at, cutting_room


def moment(day: int, hour: int) -> datetime:
    return datetime(2026, 3, day, hour, tzinfo=UTC)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Radish 101-104, cut on the 28th at 09:00 before the sheet of the days before is typed in."""
    book = cutting_room(tmp_path)
    weigh(book, [101, 102, 103, 104], 1100.0)
    at(book, moment(28, 18))
    return book


def test_what_was_done_before_the_cut_is_written_after_it(book: Book) -> None:
    did(book, "water", [101, 102], moment(27, 8), amount_ml=300)
    look(book, [101], Look(height_mm=60), at=moment(27, 8))
    page = tray_page(book, 101)
    assert page.tray.status == "cut"
    assert [line.kind for line in page.past if line.at == moment(27, 8)] == ["water", "look"]
    assert wrong_summaries(book) == []


def test_a_ready_sign_typed_after_the_cut_does_not_ask_for_another(book: Book) -> None:
    seen = look(book, [101], Look(sign="yes"), at=moment(27, 8))
    assert not [notice for notice in seen.notices if "can be cut" in notice]


def test_what_is_said_to_be_done_after_the_cut_is_refused(book: Book) -> None:
    for when in (moment(28, 9), moment(28, 10), None):
        with pytest.raises(Refused, match="no longer growing"):
            did(book, "water", [101], when)


def test_a_change_before_the_cut_that_does_not_fit_is_refused_as_ever(book: Book) -> None:
    with pytest.raises(Refused):
        did(book, "weight_off", [101], moment(27, 8))
