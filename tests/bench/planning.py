"""How long a plan takes: 8 weeks, 60 standing lines, 25 crops, 200 slots.

Run by hand from the project's folder: python -m tests.bench.planning.
"""

import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from logbook.actions.book import Book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.crops.templates import list_templates
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.planning.plan import accept, plan
from logbook.actions.planning.promise import promised
from logbook.clock import FixedClock
from logbook.growing.crops import yields

NOW = datetime(2026, 3, 25, 9, tzinfo=UTC)
WEEKDAYS = ("tue,fri", "mon,thu", "wed", "sat", "tue", "fri")


def a_room(folder: Path) -> Book:
    """A book of 200 slots with 60 standing lines of 25 crops."""
    draft = BeginDraft("Bench room", "Europe/London", racks=10, shelves=4, slots=5)
    book = begin_book(folder / "bench.book", draft, FixedClock(NOW), "ab", "sample")
    crops = [each.name for each in list_templates(book) if each.expected_grams][:25]
    for line in range(60):
        crop, days = crops[line % len(crops)], WEEKDAYS[line % len(WEEKDAYS)]
        text = f"{crop} {1 + line % 3} x {100 + 50 * (line % 4)}g every {days} 06:00"
        order(book, OrderDraft(f"Kitchen {'abcdefghijklmnopqrst'[line % 20] * 3}", text))
    return book


def timed(what: str, call: object) -> None:
    """Run and say how long it took, with nothing kept from before."""
    assert callable(call)
    yields._expect.cache_clear()
    yields._chance_of.cache_clear()
    begun, work = time.perf_counter(), time.process_time()
    call()
    took, worked = time.perf_counter() - begun, time.process_time() - work
    print(f"{what}: {1000 * took:.0f} ms, of the processor {1000 * worked:.0f}")


def main() -> None:
    """Make the room and time what is asked of it."""
    with tempfile.TemporaryDirectory() as folder:
        book = a_room(Path(folder))
        timed("plan of 8 weeks", lambda: plan(book, 8))
        timed("promise", lambda: promised(book, "radish 500g fri 10 apr 06:00"))
        accept(book, ["all"], 2)
        timed("plan of 8 weeks, 2 accepted", lambda: plan(book, 8))
        timed("promise", lambda: promised(book, "radish 500g fri 10 apr 06:00"))


if __name__ == "__main__":
    main()
