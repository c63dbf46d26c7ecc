"""What is asked of SQLite every day never reads every entry of every year."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.room.water import list_water
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.due import due
from logbook.actions.trays.page import page
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, preview, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.clock import FixedClock
from logbook.store.file.book_file import BookFile

NOW = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)

GROWING = "entry|entry_tray|tray|batch|tray_place|weight|watering|look|e|et|t|b|p|w|l|s"
"""The tables that every day adds to, and the short names that queries give them."""


def deliveries_after_an_order(book: Book) -> object:
    """An order, and the deliveries with it."""
    order(book, OrderDraft("Bistro", "radish 500g every tue"))
    return list_deliveries(book)


VIEWS: dict[str, Callable[[Book], object]] = {
    "the round": the_round,
    "due": due,
    "the page": page,
    "the racks": racks,
    "a tray": lambda book: tray_page(book, 101),
    "a batch": lambda book: batch_page(book, "1"),
    "the water": list_water,
    "the deliveries": deliveries_after_an_order,
    "a sowing": lambda book: preview(book, SowDraft("kale", trays=2)),
}


@pytest.mark.parametrize("name", VIEWS)
def test_no_view_scans_the_tables_that_grow(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = begin_book(tmp_path / "room.book", BeginDraft(), FixedClock(NOW))
    sow(book, SowDraft("radish", trays=3))
    asked: list[str] = []
    assert isinstance(book.file, BookFile)
    connect = book.file._connect

    def listening() -> object:
        connection = connect()
        connection.set_trace_callback(asked.append)
        return connection

    monkeypatch.setattr(book.file, "_connect", listening)

    VIEWS[name](book)

    queries = [text for text in asked if text.lstrip().startswith(("SELECT", "WITH"))]
    assert queries
    with book.reading() as reading:
        reading.connection.set_trace_callback(None)
        plans = [
            (str(row[3]), query)
            for query in queries
            if "FROM template " not in query and "ORDER BY id DESC LIMIT" not in query
            for row in reading.rows(f"EXPLAIN QUERY PLAN {query}")
        ]
    scans = [
        plan
        for plan in plans
        if re.match(rf"SCAN ({GROWING})\b(?!.* USING )", plan[0]) or plan[0].endswith("(at<?)")
    ]
    assert scans == []
