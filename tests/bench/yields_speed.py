"""What yields and costs take of the processor, in a book of one year and of ten: 20,000 trays a year.

Run by hand: python -m tests.bench.yields_speed FOLDER, where the books are made once (ten years: two
minutes). Every shelf has lamps and every rate is set, so that all of it is reckoned. Screens begin with 8 weeks.
"""

import sqlite3
import sys
import time
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.costs.costing import crop_costs
from logbook.actions.costs.rates import set_rate
from logbook.actions.room.lamps import hang_lamps, set_tariff
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.yields.lateness import lateness
from logbook.actions.yields.listing import Span, backtested, yields, yields_by_batch
from logbook.actions.yields.month import month
from logbook.clock import FixedClock
from logbook.growing.costs.rates import RATES
from logbook.growing.room.power import LampSet
from logbook.growing.room.tariffs import Tariff
from logbook.store.revision import HEAD
from logbook.store.rows import stored
from tests.bench.ten_years import END, build_ten_years

YEAR = Span(52)
VIEWS: dict[str, Callable[[Book], object]] = {
    "yields, 8 weeks": yields,
    "yields, a year": lambda book: yields(book, YEAR),
    "batches of a crop, 8 weeks": lambda book: yields_by_batch(book, "radish"),
    "batches of a crop, a year": lambda book: yields_by_batch(book, "radish", YEAR),
    "costs, 8 weeks": crop_costs,
    "costs, a year": lambda book: crop_costs(book, YEAR),
    "page of a batch": lambda book: batch_page(book, "900"),
    "month": month,
    "lateness, half a year": lateness,
    "back-test, a year": backtested,
}


def lit_book(folder: Path, years: int) -> Path:
    """A book of so many years with lamps, a tariff and all rates from its first day on."""
    path = folder / f"lit-{years}-{HEAD}.book"
    if path.exists():
        return path
    start = END - timedelta(days=365.25 * years + 15)
    build_ten_years(path, years=years)
    book = open_book(path, FixedClock(END), "ab")
    for rack in range(1, 11):
        hang_lamps(book, f"Rack {rack}", LampSet(3, 19.3))
    with (
        closing(sqlite3.connect(path)) as connection,
        connection,
    ):  # an act refuses a time so long ago
        connection.execute("UPDATE entry SET at = ? WHERE kind = 'lamps'", (stored(start),))
    set_tariff(book, Tariff(start.date(), Decimal("0.30")))
    for name in RATES:
        set_rate(book, name, Decimal("0.5"), since=start.date())
    return path


def main() -> None:
    """Print a line for each view: ms of one year, of ten, and their ratio."""
    folder = Path(sys.argv[1])
    books = [open_book(lit_book(folder, years), FixedClock(END), "ab") for years in (1, 10)]
    for name, view in VIEWS.items():
        spent = []
        for book in books:
            times = []
            for _ in range(3):
                began = time.process_time()
                view(book)
                times.append(time.process_time() - began)
            spent.append(min(times) * 1000)
        print(f"{name:28}{spent[0]:7.0f} ms {spent[1]:7.0f} ms {spent[1] / spent[0]:6.2f} ×")


if __name__ == "__main__":
    main()
