"""The builder of the large book, at a small size."""

from __future__ import annotations

from pathlib import Path

from logbook.actions.book import open_book
from logbook.actions.care.checking import check
from logbook.actions.trays.round import the_round
from logbook.clock import FixedClock
from logbook.store.file.health import row_counts
from tests.bench.ten_years import END, build_ten_years


def test_a_built_book_is_in_order_and_its_trays_are_due(tmp_path: Path) -> None:
    path = tmp_path / "room.book"

    build_ten_years(path, years=0.01, trays_growing=20)

    book = open_book(path, FixedClock(END))
    with book.reading() as reading:
        counts = row_counts(reading.connection)
    assert counts["tray"] == 40 * 5 + 20
    found = {each.about: each.severity for each in check(path, book.clock)}
    assert found["integrity"] == found["references"] == found["summaries"] == "good"
    assert the_round(book).due
