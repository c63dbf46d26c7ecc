"""The books that speed is measured on: ten years and one month, the same growing trays in both.

200 trays grow in batches of five; beside them a batch of 20 stands on one shelf, the first that
one walks past, in need of water.
"""

from __future__ import annotations

import shutil
import sys
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

from logbook.actions.book import open_book
from logbook.actions.room.places import PlaceDraft, add_place
from logbook.actions.trays.doing import did
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import FixedClock
from logbook.store.revision import HEAD
from tests.bench.ten_years import END, build_ten_years

TOGETHER = 20
SHELF = "Front rack/Long shelf"
NOW = "2026-04-14T08:30"
"""END, as the room's clock shows it."""


@dataclass(frozen=True, slots=True)
class Books:
    """Two books that end at NOW."""

    ten_years: Path
    one_month: Path


def bench_books(folder: Path) -> Books:
    """Give the books in a folder; where they are missing they are made of those of an earlier
    revision, or built (ten years: a minute).
    """  # noqa: D205
    folder.mkdir(parents=True, exist_ok=True)
    books = Books(folder / f"ten-years-{HEAD}.book", folder / f"one-month-{HEAD}.book")
    for path, years in ((books.one_month, 1 / 12), (books.ten_years, 10.0)):
        if not path.exists():
            print(f"building {path.name}", file=sys.stderr)
            unfinished = path.with_suffix(".unfinished")
            unfinished.unlink(missing_ok=True)
            earlier = sorted(folder.glob(f"{path.stem.rpartition('-')[0]}-[0-9]*.book"))
            if earlier:
                _follow(earlier[-1], unfinished)
            else:
                build_ten_years(unfinished, years=years)
                _sow_together(unfinished)
            unfinished.rename(path)
    return books


def _follow(earlier: Path, path: Path) -> None:
    """Make a book of one of an earlier revision, by the migrations."""
    shutil.copyfile(earlier, path)
    path.chmod(0o600)
    with open_book(path, FixedClock(END), "ab").file.writing() as writer:
        # before 0007 no book said that its time is pretended
        writer.rows("UPDATE book SET begun_as = 'sample'")
    for copy in path.parent.glob(f"{path.name}.before-*"):
        copy.unlink()


def _sow_together(path: Path) -> None:
    # Written at END: a clock that stood before the newest entries would be in doubt.
    book = open_book(path, FixedClock(END), "ab")
    rack, _, shelf = SHELF.partition("/")
    add_place(book, PlaceDraft(rack, "rack", position=-1))
    add_place(
        book,
        PlaceDraft(shelf, "shelf", under=rack, slots=TOGETHER, lamp_on=6 * 60, lamp_off=22 * 60),
    )
    at = END - timedelta(days=5)
    sown = sow(book, SowDraft("kale", trays=TOGETHER, at=at, place=SHELF))
    for change in sown.plan.changes:
        if change.at < END:
            did(book, change.chore, sown.plan.numbers, change.at)
