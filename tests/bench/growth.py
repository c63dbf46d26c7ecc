"""What ten years of data cost a view of today: against one month, the same growing trays.

python -m tests.bench.growth
"""

from __future__ import annotations

import time
from collections.abc import Callable

from logbook.actions.book import Book, open_book
from logbook.actions.reading import Folds
from logbook.actions.trays.due import due
from logbook.actions.trays.page import page, search
from logbook.actions.trays.racks import racks
from logbook.actions.trays.round import round_view
from logbook.actions.trays.tray_page import tray_page
from logbook.clock import FixedClock
from tests.bench.books import Books
from tests.bench.figures import Figure, median, told
from tests.bench.ten_years import END
from tests.bench.words import LIMIT

TIMES = 31
HELD: dict[str, Callable[[Book], object]] = {"round": round_view, "racks": racks, "due": due}
NOWHERE = "search for a word that is nowhere"
TOLD: dict[str, Callable[[Book], object]] = {
    "page of today": page,
    "search in the notes (2 million entries)": lambda book: search(book, "even stand"),
    NOWHERE: lambda book: search(book, "zebra"),
    "one tray": lambda book: tray_page(book, 301),
}


def _cold(book: Book, view: Callable[[Book], object]) -> float:
    book.folds = Folds()
    began = time.process_time()
    view(book)
    return time.process_time() - began


def measure(books: Books) -> list[Figure]:
    """Give the ratio of each view, by CPU time, nothing folded beforehand."""
    both = [open_book(path, FixedClock(END), "ab") for path in (books.ten_years, books.one_month)]
    figures = []
    for name, view in (HELD | TOLD).items():
        held = name in HELD
        taken: tuple[list[float], list[float]] = ([], [])
        for turn in range((TIMES if held else 5) + 1):
            for book, times in zip(both, taken, strict=True):
                spent = _cold(book, view)
                if turn:
                    times.append(spent)
        ten, month = median(taken[0]), median(taken[1])
        how = f"{ten * 1000:.0f} ms and {month * 1000:.0f} ms of CPU"
        if held:
            words = f"{name}, ten years against one month, {TIMES} runs in turn"
            figures.append(Figure(words, ten / month, 1.1, "×", how))
        else:
            limit = LIMIT if name == NOWHERE else None
            figures.append(Figure(f"{name}, ten years", ten * 1000, limit, "ms", how))
    return figures


if __name__ == "__main__":
    told(measure)
