"""Books to give out and to take into."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.trays.looks import Look

NOON = datetime(2026, 4, 14, 12, tzinfo=UTC)
CLOCK = FixedClock(NOON)


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a book that was begun and nothing more."""
    path = tmp_path_factory.mktemp("begun") / "room.book"
    begin_book(path, BeginDraft(zone="Europe/London", racks=1, shelves=3, slots=6), CLOCK)
    return path


@pytest.fixture(scope="session")
def written(begun: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of a book with something in every table."""
    path = tmp_path_factory.mktemp("written") / "room.book"
    path.write_bytes(begun.read_bytes())
    book = open_book(path, CLOCK, "AB")
    sow(book, SowDraft("sunflower", trays=3, at=NOON - timedelta(days=9), lot="=1+1", grams=118.5))
    sow(book, SowDraft("radish", trays=2, at=NOON + timedelta(days=2), colours=("@blue",)))
    did(book, "water", [101, 102], amount_ml=250.0, note='with "care", then\nleft alone')
    look(book, [102], Look(height_mm=42.5, wilting=False, uneven="-left"))
    move(book, [102], "Shelf 3/2")
    jot(book, [103], "'tis [/] fine; 5,5 % − ok\n=SUM(A1)")
    weigh(book, [101], 283.25)
    with book.reading() as reading:
        cut = reading.value("SELECT max(id) FROM entry")
    replace_entry(book, cut, "+misread", Changes(grams=281.0))
    jot(book, [], "struck again")
    undo(book)
    return path


@pytest.fixture
def book(written: Path, tmp_path: Path) -> Book:
    """A book with something in every table, to change at will."""
    path = tmp_path / "room.book"
    path.write_bytes(written.read_bytes())
    return open_book(path, CLOCK, "AB")


@pytest.fixture
def empty(begun: Path, tmp_path: Path) -> Path:
    """The file of a book that was begun and nothing more, to take into."""
    path = tmp_path / "empty.book"
    path.write_bytes(begun.read_bytes())
    return path
