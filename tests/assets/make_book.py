"""Make book-REVISION.sql: a book of the newest revision with rows in every table, as text.

    python -m tests.assets.make_book

Run it only while that revision is not yet released. Afterwards the file is kept as it is, so that
every later program is tried on what this one wrote.
"""

from __future__ import annotations

import sqlite3
import tempfile
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

from logbook.actions.begin import BeginDraft, begin_book
from logbook.actions.doing import did, discard, jot, look, move, skip
from logbook.actions.places import PlaceDraft, add_place
from logbook.actions.sowing import SowDraft, sow
from logbook.actions.striking import strike, undo
from logbook.actions.templates import copy_template
from logbook.actions.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.looks import Look
from logbook.store.revision import HEAD

ASSET = Path(__file__).parent / f"book-{HEAD}.sql"
START = datetime(2026, 3, 20, 6, 30, tzinfo=UTC)


def fill(path: Path) -> None:
    """Make a book with rows in every table."""
    clock = FixedClock(START)
    book = begin_book(path, BeginDraft("Back room", "Europe/London", 2, 3, 6), clock, "ab")
    add_place(book, PlaceDraft("Window", "shelf", "Rack 1", 3, None, None))
    copy_template(book, "radish", "red radish")
    sow(book, SowDraft("red radish", trays=4, lot="R-17", colours=("blue",), note="dense"))
    sow(book, SowDraft("kale", trays=3, at=START - timedelta(days=1), grams=18.0))
    sow(book, SowDraft("pea", trays=2, at=START + timedelta(days=2), plan=True, place="Rack 2"))
    clock.at += timedelta(days=2)
    did(book, "water", (101, 102), amount_ml=250.0)
    skip(book, "look", (103,), "no time")
    look(
        book, (104,), Look(90.0, 21.0, "spot", "corner", False, None, False, "white", True, "edge")
    )
    did(book, "sow", (108, 109), note="planned, now done")
    clock.at += timedelta(days=3)
    did(book, "light_on", (105, 106, 107))
    move(book, (101,), "Rack 1/Window")
    book.by = "cd"
    jot(book, (102, 103), 'odd text: [b] "quotes", = 1 + 1, ø 🌱')
    jot(book, (), "the room was aired", place="Rack 2")
    clock.at += timedelta(days=4)
    weigh(book, (101,), 150.0, part=True)
    weigh(book, (101,), 90.5)
    weigh(book, (102, 103), 430.0, note="together")
    discard(book, (104,), "mould")
    weigh(book, (105,), 999.0)
    undo(book)
    strike(book, jot(book, (), "a slip").act_id, "wrong room")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "room.book"
        fill(path)
        with closing(sqlite3.connect(path)) as connection:
            mark = connection.execute("PRAGMA application_id").fetchone()[0]
            lines = [f"PRAGMA application_id={mark};", *connection.iterdump()]
    ASSET.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{ASSET.name}: {len(lines)} lines")


if __name__ == "__main__":
    main()
