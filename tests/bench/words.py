"""What the search costs: its time and its size on disk, in a book of ten years and in a wordy one.

    python -m tests.bench.words

The wordy book is the same with a note of six words, out of 5,000 made ones, on every entry; making it
takes two minutes.
"""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import tempfile
import time
from contextlib import closing
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.page import search
from logbook.clock import FixedClock
from logbook.store.rows import Rows
from logbook.store.search import INDEX, rebuild
from tests.bench.books import Books
from tests.bench.figures import Figure, median, told
from tests.bench.ten_years import END

TIMES = 7
LIMIT = 30.0
"""ms: the most that a word that is nowhere may take, from opening the file to the answer."""
ASKED = ("zebra", "zebra spot", "zq", "e", "stand even", "lot 99")
SYLLABLES = ("ba", "ce", "di", "fo", "gu", "la", "me", "ni", "po", "ru", "sta", "tre")


def _ms(book: Book, words: str) -> tuple[float, int]:
    taken = []
    for _ in range(TIMES):
        began = time.perf_counter()
        found = search(book, words)
        taken.append((time.perf_counter() - began) * 1000)
    return median(taken), len(found)


def _searched(book: Book, name: str) -> list[Figure]:
    figures = []
    for words in ASKED:
        taken, found = _ms(book, words)
        limit = LIMIT if words.startswith("zebra") else None
        figures.append(
            Figure(f'search for "{words}", {name}', taken, limit, "ms", f"{found} shown")
        )
    return figures


def _jotted(book: Book, name: str) -> Figure:
    taken = []
    for turn in range(20):
        began = time.perf_counter()
        jot(book, (), f"an even stand {turn}")
        taken.append((time.perf_counter() - began) * 1000)
    return Figure(
        f"a jot written, {name}", median(taken), None, "ms", "its words and index with it"
    )


def _made_anew(path: Path, name: str) -> list[Figure]:
    """The size of a book without words and index, and with them; how long making them takes."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA synchronous=OFF")
        connection.execute(f"DROP TABLE {INDEX}")
        connection.execute("DELETE FROM entry_words")
        connection.execute("VACUUM")
        bare = path.stat().st_size
        began = time.perf_counter()
        connection.execute("BEGIN IMMEDIATE")
        rebuild(Rows(connection))
        connection.execute("COMMIT")
        spent = time.perf_counter() - began
        texts, letters = connection.execute(
            "SELECT count(*), sum(length(CAST(words AS BLOB))) FROM entry_words"
        ).fetchone()
    more = path.stat().st_size - bare
    how = f"{texts:,} texts of {letters / 1e6:.1f} MB; book {bare / 1e6:.0f} MB"
    return [
        Figure(f"size of words and index, {name}", more / 1e6, None, "MB", how),
        Figure(f"words and index made anew, {name}", spent, None, "s"),
    ]


def _make_wordy(path: Path) -> None:
    chance = random.Random(1)
    words = ["".join(chance.choices(SYLLABLES, k=chance.randrange(2, 5))) for _ in range(5_000)]
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA synchronous=OFF")
        connection.create_function("note", 0, lambda: " ".join(chance.choices(words, k=6)))
        connection.execute("UPDATE entry SET note = note()")


def measure(books: Books) -> list[Figure]:
    """The figures of both books."""
    figures = []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "room.book")
        shutil.copy(books.ten_years, path)
        for name in ("ten years", "ten years, a note on each entry"):
            figures += _made_anew(path, name)
            book = open_book(path, FixedClock(END), "ab")
            figures += _searched(book, name)
            figures.append(_jotted(book, name))
            if name == "ten years":
                _make_wordy(path)
        os.sync()
    return figures


if __name__ == "__main__":
    told(measure)
