"""The table in the file that says what the others hold."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.handbook import chapter_text
from logbook.store.file.health import table_names
from tests.bench.processes import ROOT


@pytest.mark.parametrize("old", ["", "0001", "0016"])
def test_every_table_and_column_of_a_book_is_described_in_it(
    book: Book, old: str, tmp_path: Path
) -> None:
    """In a new one, and in one that was brought up to date; with the units that its numbers have."""
    if old:
        with closing(sqlite3.connect(tmp_path / "old.book")) as connection:
            asset = ROOT / "tests" / "assets" / f"book-{old}.sql"
            connection.executescript(asset.read_text(encoding="utf-8"))
        book = open_book(tmp_path / "old.book")
    with book.reading() as reading:
        tables = [*table_names(reading.connection), "about", "entry_words"]
        columns = [
            f"{table}.{name}"
            for table in tables
            for (name,) in reading.rows("SELECT name FROM pragma_table_info(?)", (table,))
        ]
        says: dict[str, str] = dict(reading.rows("SELECT name, says FROM about"))

    assert set(says) == {"", *tables, *columns}
    assert all(says.values())
    assert says["weight.grams"] == "grams"
    assert says["template_target.light_low"].startswith("mol/m²/d")
    assert says["entry.at"] == "a moment, seconds since 1970 in UTC"
    assert "IANA" in says["place.zone"]
    assert "place.zone" in says[""]
    assert all(f"- `{name.partition('.')[2]}` — {says[name]}" in chapter_text("tables") for name in columns)  # fmt: skip
