"""Keys for daily jobs, beside those in a spreadsheet.

    python -m tests.bench.hands

Ours are pressed for real, in the round of a book, and what they did is looked up in the book.

The spreadsheet is counted by a model that favours it: one sheet as a log, the cursor anywhere in
it; date and time by its stamp keys (one key each); Tab from cell to cell; no help is counted for
finding out what is due, when the next cut is or where a tray stands. A row is: to the first empty
row (Ctrl+Down, Down), date, time, trays, what, note, initials, each with Tab, the last with Enter.
"""

from __future__ import annotations

import asyncio
import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from textual.pilot import Pilot

from logbook.actions.book import Book, open_book
from logbook.actions.trays.page import page
from logbook.clock import FixedClock
from logbook.ui.app import LogbookApp
from tests.bench.books import Books, bench_books
from tests.bench.figures import FOLDER
from tests.bench.ten_years import END

STAMP = "•"
"""A cell that one key fills: the date, the time, a repeated value."""


def row(trays: str, what: str, note: str = "", at: str = STAMP) -> int:
    """Count the keys of one row of the log."""
    cells = (STAMP, at, trays, what, note, "ab")
    return 2 + sum(len(cell) for cell in cells) + len(cells)


@dataclass(frozen=True, slots=True)
class Job:
    """A job, our keys for it, the spreadsheet's, and the kind of entry that proves it."""

    words: str
    keys: tuple[str, ...]
    sheet: int
    sheet_words: str
    kind: str = ""


JOBS = (
    Job("water and look at the 20 trays of a shelf", ("enter",), 2 * row("301-320", "water"),
        "two rows", "water"),
    Job("take back what was just written", ("u",), 1, "Ctrl+Z, while it is the last", "strike"),
    Job("write that it was done at 07:15", ("t", *"07:15", "enter"),
        row("301-320", "water", at="07:15"), "a row, the time typed", "water"),
    Job("water ten of them only", ("p", *"301-310", "enter"), row("301-310", "water"),
        "a row", "water"),
    Job("jot that an edge is dry", ("j", *"dry edge", "enter"),
        row("301-320", "jot", "dry edge"), "a row", "jot"),
    Job("write a look: 90 % up", ("l", "enter", *"90", "f9"), row("301-320", "look", "90 % up"),
        "a row", "look"),
    Job("skip a watering, with the reason", ("s", *"wet", "enter"),
        row("301-320", "skip water", "wet"), "a row", "skip"),
    Job("move them to another shelf", ("m", *"1/3", "enter"), row("301-320", "Rack 1/Shelf 3"),
        "a row", "move"),
    Job("weigh the next tray that is to be cut", ("w", *"283", "enter"),
        row("106", "cut", "283"), "a row, the tray looked up by eye", "weigh"),
    Job("sow four trays of radish", ("n", *"ra", "enter", "4", "f9"),
        row("321-324", "sow radish") + 4 * (2 + len("321") + len("radish") + 3 * 2),
        "a row, and a row for each tray in the list of trays", "sow"),
    Job("see what was done to tray 101", (*"101", "enter"), 2 + len("101") + 1,
        "filter: Alt+Down, E, the number, Enter"),
)  # fmt: skip
"""The daily jobs, as they are done one after another; what is written is taken back between them."""


async def _settled(pilot: Pilot[None], done: Callable[[], bool]) -> bool:
    for _ in range(300):
        if done():
            return True
        await pilot.pause(0.02)
    return False


async def _play(book: Book, job: Job) -> bool:
    """Press a job's keys in the round; tell whether they did it."""
    app = LogbookApp(book)
    async with app.run_test(size=(80, 24)) as pilot:
        await _settled(pilot, lambda: getattr(app.screen, "view", None) is not None)
        before = {line.id for line in page(book)}
        if job.kind == "strike":
            await pilot.press("enter")
            await _settled(pilot, lambda: len(page(book)) > len(before))
        for key in job.keys:
            await pilot.press({" ": "space", ":": "colon", "-": "minus"}.get(key, key))
            await pilot.pause(0.05)
        if not job.kind:
            return await _settled(pilot, lambda: app.trail[-1].name == "tray")
        kind = job.kind
        return await _settled(
            pilot,
            lambda: kind in {line.kind for line in page(book) if line.id not in before},
        )


def keys_table(books: Books) -> str:
    """Press all keys and give the table; raise AssertionError when a job was not done by them."""
    lines = ["| job | keys here | keys in a spreadsheet | counted there |", "|---|---|---|---|"]
    ours = theirs = 0
    for job in JOBS:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder, "room.book")
            shutil.copy(books.one_month, path)
            done = asyncio.run(_play(open_book(path, FixedClock(END), "ab"), job))
            assert done, f"the keys {job.keys} did not {job.words}"
        ours, theirs = ours + len(job.keys), theirs + job.sheet
        shown = " ".join(job.keys)
        lines.append(
            f"| {job.words} | {len(job.keys)}: {shown} | {job.sheet} | {job.sheet_words} |"
        )
    lines.append(f"| all | {ours} | {theirs} | |")
    return "\n".join(lines)


if __name__ == "__main__":
    print(keys_table(bench_books(FOLDER)))
