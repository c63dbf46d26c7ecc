"""Everything measured, as Markdown for DEVELOPERS.md: `python -m tests.bench.all [part …]`.

Parts: start, growth, keys, memory, hands; all of them without one (about ten minutes).
"""

from __future__ import annotations

import os
import sys
from datetime import UTC, datetime

from tests.bench import growth, hands, keys, memory, start
from tests.bench.books import bench_books
from tests.bench.figures import FOLDER, Figure, machine, table

PARTS = {
    "start": start.measure, "growth": growth.measure, "keys": keys.measure,
    "memory": memory.measure,
}  # fmt: skip


def main(wanted: list[str]) -> None:
    """Measure and print."""
    books = bench_books(FOLDER)
    today = datetime.now(UTC).date()  # noqa: TID251 - the day on which it was measured
    print(f"Measured on {today}: {machine()}; load at the start {os.getloadavg()[0]:.1f}.\n")
    figures: list[Figure] = []
    for name, measure in PARTS.items():
        if not wanted or name in wanted:
            print(f"measuring {name}", file=sys.stderr)
            figures += measure(books)
    if figures:
        print(table(figures))
    if not wanted or "hands" in wanted:
        print(f"\n{hands.keys_table(books)}")


if __name__ == "__main__":
    main(sys.argv[1:])
