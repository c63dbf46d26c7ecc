"""How long a plan takes: 8 weeks, 60 standing lines, 25 crops, 200 slots; deliveries in ten years of data.

Run by hand from the project's folder: python -m tests.bench.planning [FOLDER], where FOLDER keeps the
books of tests.bench.all. A plan may take 1 s, deliveries and a promise 0.1 s, by the clock and in a
book that was just opened.
"""

import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from statistics import median

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.crops.templates import list_templates
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.planning.plan import accept, plan
from logbook.actions.planning.promise import promised
from logbook.clock import FixedClock
from logbook.growing.crops import yields
from tests.bench.books import bench_books
from tests.bench.figures import FOLDER
from tests.bench.ten_years import END
from tests.bench.tracing import with_lots

NOW = datetime(2026, 3, 25, 9, tzinfo=UTC)
WEEKDAYS = ("tue,fri", "mon,thu", "wed", "sat", "tue", "fri")


def a_room(folder: Path) -> Book:
    """A book of 200 slots with 60 standing lines of 25 crops."""
    draft = BeginDraft("Bench room", "Europe/London", racks=10, shelves=4, slots=5)
    book = begin_book(folder / "bench.book", draft, FixedClock(NOW), "ab", "sample")
    with_lines(book, [each.name for each in list_templates(book) if each.expected_grams][:25])
    return book


def ten_years(folder: Path, made: Path) -> Book:
    """The book of ten years with every cut in a pack lot, and 60 standing lines of its crops."""
    path = made / "ten-years.book"
    shutil.copyfile(bench_books(folder).ten_years, path)
    path.chmod(0o600)
    book = with_lots(path)
    with_lines(book, [each.name for each in list_templates(book) if each.expected_grams])
    return book


def with_lines(book: Book, crops: list[str]) -> None:
    """Write 60 standing lines, of 20 kitchens."""
    for line in range(60):
        crop, days = crops[line % len(crops)], WEEKDAYS[line % len(WEEKDAYS)]
        text = f"{crop} {1 + line % 3} x {100 + 50 * (line % 4)}g every {days} 06:00"
        order(book, OrderDraft(f"Kitchen {'abcdefghijklmnopqrst'[line % 20] * 3}", text))


def timed(what: str, call: Callable[[], object], runs: int = 1) -> None:
    """Run and say how long it took, with nothing kept from before."""
    took, worked = [], []
    for _ in range(runs):
        yields._expect.cache_clear()
        yields._chance_of.cache_clear()
        begun, work = time.perf_counter(), time.process_time()
        call()
        took.append(1000 * (time.perf_counter() - begun))
        worked.append(1000 * (time.process_time() - work))
    slowest = f", slowest {max(took):.0f} ms" if runs > 1 else ""
    print(f"{what}: {median(took):.0f} ms, of the processor {median(worked):.0f}{slowest}")


def main() -> None:
    """Make the rooms and time what is asked of them."""
    asked = "radish 500g fri 10 apr 06:00"
    with tempfile.TemporaryDirectory() as folder:
        book = a_room(Path(folder))
        timed("plan of 8 weeks", lambda: plan(book, 8))
        timed("promise", lambda: promised(book, asked))
        accept(book, ["all"], 2)
        timed("plan of 8 weeks, 2 accepted", lambda: plan(book, 8))
        timed("promise", lambda: promised(book, asked))
        old = ten_years(Path(sys.argv[1] if len(sys.argv) > 1 else FOLDER), Path(folder)).file.path

        def opened() -> Book:
            return open_book(old, FixedClock(END), "ab")

        timed("ten years, just opened: deliveries", lambda: list_deliveries(opened()), 9)
        timed("promise", lambda: promised(opened(), "radish 500g fri 24 apr 06:00"), 9)
        book = opened()
        timed("ten years, in the app: deliveries", lambda: list_deliveries(book), 9)
        timed("promise", lambda: promised(book, "radish 500g fri 24 apr 06:00"), 9)


if __name__ == "__main__":
    main()
