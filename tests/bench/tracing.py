"""How long a trace of a seed lot takes in ten years of data: 200 trays, 40 pack lots, 120 deliveries.

Run by hand from the project's folder: python -m tests.bench.tracing [FOLDER], where FOLDER keeps the
books of tests.bench.all. Every cut of the book goes into a pack lot of its batch, and every lot to
three customers. At most 0.3 s are wanted for a seed lot.
"""

import shutil
import sqlite3
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path
from statistics import median

from logbook.actions.book import Book, open_book
from logbook.actions.orders.customers import CustomerDraft, put_customer
from logbook.actions.packs.life import life_of
from logbook.actions.packs.trace import trace
from logbook.clock import FixedClock
from tests.bench.books import bench_books
from tests.bench.ten_years import END

KITCHENS = 30
MOST_SECONDS = 0.3


def with_lots(book: Path) -> Book:
    """Give every batch that was cut a pack lot, and each lot three customers."""
    opened = open_book(book, FixedClock(END), "ab")
    for number in range(KITCHENS):
        put_customer(opened, CustomerDraft(f"Kitchen {number}", kind="kitchen"), new=True)
    with closing(sqlite3.connect(book)) as connection, connection:
        connection.executescript(
            """
            CREATE TEMP TABLE made AS
              SELECT min(w.entry_id) AS lot, t.batch_id AS batch, date(min(e.at), 'unixepoch') AS day,
                     sum(w.grams) AS grams, row_number() OVER () AS nth, min(v.template_id) AS template
              FROM weight w JOIN tray t ON t.id = w.tray_id JOIN entry e ON e.id = w.entry_id
              JOIN template_version v ON v.id = t.version_id GROUP BY t.batch_id;
            CREATE UNIQUE INDEX made_batch ON made (batch);
            UPDATE weight SET lot_id = (SELECT lot FROM made JOIN tray t ON t.batch_id = made.batch
                                        WHERE t.id = weight.tray_id);
            INSERT INTO pack_lot (entry_id, lot_id, code, code_key, template_id, packed_on, best_before)
              SELECT lot, lot, 'L-' || nth, 'l-' || nth, template, day, date(day, '+7 days') FROM made;
            CREATE TEMP TABLE kitchen AS
              SELECT customer_id, row_number() OVER () AS nth FROM customer ORDER BY customer_id;
            CREATE TEMP TABLE sent AS
              SELECT (SELECT max(id) FROM entry) + row_number() OVER () AS id, lot, day, grams / 4 AS grams,
                     (SELECT customer_id FROM kitchen k WHERE k.nth = (made.nth + c.value) % 30 + 1) AS customer
              FROM made, json_each('[0, 7, 19]') c;
            INSERT INTO entry (id, kind, at, written_at, "by", note, chore, act_id)
              SELECT id, 'pack', strftime('%s', day), strftime('%s', day), 'ab', '', '', id FROM sent;
            INSERT INTO packed (entry_id, customer_id, packs, pack_grams, day)
              SELECT id, customer, 1, grams, day FROM sent;
            INSERT INTO packed_lot (entry_id, lot_id, packs, grams) SELECT id, lot, 1, grams FROM sent;
            """
        )
    return opened


def main() -> None:
    """Time the traces of a new process and of one that has traced before."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "/tmp/logbook-bench")  # noqa: S108 - kept for the next run
    with tempfile.TemporaryDirectory() as made:
        path = Path(made) / "ten-years.book"
        shutil.copyfile(bench_books(folder).ten_years, path)
        path.chmod(0o600)
        book = with_lots(path)
        with book.reading() as reading:
            lot = reading.value("SELECT code FROM pack_lot WHERE lot_id % 997 = 1 LIMIT 1")
        name = trace(book, lot).back[-1].code
        for what, call in (
            (f"seed lot {name}", lambda: trace(book, f"seed lot {name}")),
            (f"pack lot {lot}", lambda: trace(book, lot)),
            ("a delivery", lambda: trace(book, "Kitchen 3")),
            (f"the life of {lot}", lambda: life_of(book, lot)),
        ):
            took, worked = [], []
            for _ in range(5):
                book.folds.clear()
                begun, work = time.perf_counter(), time.process_time()
                call()
                took.append(time.perf_counter() - begun)
                worked.append(time.process_time() - work)
            print(
                f"{what}: median {median(took) * 1000:.0f} ms, of the processor "
                f"{median(worked) * 1000:.0f} ms; slowest {max(took) * 1000:.0f} ms"
            )


if __name__ == "__main__":
    main()
