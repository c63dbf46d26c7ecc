"""Build a book of ten years: about 200,000 trays and 2 million entries.

    python -m tests.bench.ten_years PATH [--years 10] [--growing 200] [--seed 1]

The rows go straight into the tables in one transaction; the trays' summaries are what the fold
over their entries gives (`logbook check` proves it). The book ends at the moment END; open it with
`--now` near that. Prints sizes and times, of a copy and of the closing of its days too.
"""

from __future__ import annotations

import argparse
import random
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.clock import FixedClock
from logbook.store.rows import Rows, stored
from logbook.store.search import keep_words

END = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)
BATCHES_A_YEAR = 4_000
TRAYS_A_BATCH = 5
DAYS_GROWN = 10

Row = tuple[Any, ...]


@dataclass
class _Rows:
    """Rows of each table that wait to be written."""

    batch: list[Row] = field(default_factory=list)
    batch_lot: list[Row] = field(default_factory=list)
    tray: list[Row] = field(default_factory=list)
    entry: list[Row] = field(default_factory=list)
    entry_tray: list[Row] = field(default_factory=list)
    tray_place: list[Row] = field(default_factory=list)
    weight: list[Row] = field(default_factory=list)
    watering: list[Row] = field(default_factory=list)
    look: list[Row] = field(default_factory=list)


COLUMNS = {
    "batch": "id, version_id, grams_per_tray, planned_for",
    "batch_lot": "batch_id, position, lot",
    "tray": "id, number, batch_id, version_id, colour, live, ended_at, cut_grams",
    "entry": 'id, kind, at, written_at, "by", note, chore, stage, batch_id, place_id, '
    "strikes_id, act_id",
    "entry_tray": "entry_id, tray_id",
    "tray_place": "entry_id, tray_id, place_id, slot",
    "weight": "entry_id, tray_id, grams, part, shared",
    "watering": "entry_id, amount_ml",
    "look": "entry_id, emerged_percent, height_mm, mould, mould_where, wilting, cotyledons_open, "
    "true_leaves, stem_colour, hulls_on, uneven, sign, sign_seen",
}


class _Builder:
    def __init__(self, connection: sqlite3.Connection, seed: int) -> None:
        self.connection = connection
        self.random = random.Random(seed)
        self.rows = _Rows()
        self.entries = self.trays = self.batches = 0
        self.number = 100
        self.versions = [
            row[0] for row in connection.execute("SELECT id FROM template_version ORDER BY id")
        ]
        self.shelves = connection.execute(
            "SELECT id, slots FROM place WHERE kind = 'shelf' ORDER BY id"
        ).fetchall()
        self.free = [(shelf, slot + 1) for shelf, slots in self.shelves for slot in range(slots)]

    def flush(self) -> None:
        for table, columns in COLUMNS.items():
            rows = getattr(self.rows, table)
            if rows:
                marks = ",".join("?" * len(rows[0]))
                self.connection.executemany(
                    f"INSERT INTO {table} ({columns}) VALUES ({marks})",
                    rows,
                )
        self.rows = _Rows()

    def entry(
        self,
        kind: str,
        at: datetime,
        batch: int,
        trays: list[int],
        *,
        note: str = "",
        chore: str = "",
        stage: int | None = None,
    ) -> int:
        self.entries += 1
        number, when = self.entries, stored(at)
        by = "ab" if number % 3 else "cd"
        self.rows.entry.append(
            (number, kind, when, when, by, note, chore, stage, batch, None, None, number)
        )
        self.rows.entry_tray += [(number, tray) for tray in trays]
        return number

    def batch(self, sown: datetime, end: datetime) -> None:
        """Write one batch from soak to cut, or as far as `end`."""
        chance = self.random
        self.batches += 1
        batch, version = self.batches, chance.choice(self.versions)
        finished = sown + timedelta(days=DAYS_GROWN) <= end
        self.rows.batch.append((batch, version, None, None))
        self.rows.batch_lot.append((batch, 0, f"lot {batch // 40}"))
        trays = [self.trays + place for place in range(1, TRAYS_A_BATCH + 1)]
        self.trays += TRAYS_A_BATCH
        for tray in trays:
            self.number = 101 if self.number >= 9_999 else self.number + 1
            cut = sown + timedelta(days=DAYS_GROWN) if finished else None
            grams = round(chance.gauss(220, 20), 1) if finished else None
            self.rows.tray.append(
                (tray, self.number, batch, version, "", not finished,
                 stored(cut) if cut else None, grams)
            )  # fmt: skip
            if grams is not None and cut is not None:
                entry = self.entry("weigh", cut, batch, [tray], chore="cut")
                self.rows.weight.append((entry, tray, grams, False, False))
        self.entry("soak", sown - timedelta(hours=8), batch, trays, chore="soak")
        sowing = self.entry("sow", sown, batch, trays, chore="sow")
        for place, tray in enumerate(trays):
            spot: tuple[int | None, int | None] = (None, None)
            if finished:
                spot = (self.shelves[batch % len(self.shelves)][0], place + 1)
            elif self.free:
                spot = self.free.pop(0)
            self.rows.tray_place.append((sowing, tray, *spot))
        for days, chore, stage in ((2.0, "lid_on", 1), (3.0, "to_light", 2)):
            at = sown + timedelta(days=days)
            if at <= end:
                self.entry("change", at, batch, trays, chore=chore, stage=stage)
        for half in range(10):
            self._water(sown + timedelta(days=3, hours=1 + half * 12), end, batch, trays)
        for day in range(3):
            self._look(sown + timedelta(days=4 + day), end, batch, trays)
        for tray in trays:
            for day in range(4):
                self._water(sown + timedelta(days=5 + day, hours=5), end, batch, [tray])
            self._look(sown + timedelta(days=8), end, batch, [tray])
        for day in (5, 9):
            at = sown + timedelta(days=day, hours=2)
            if at <= end:
                self.entry("jot", at, batch, trays[:1], note=f"even stand, day {day}")

    def _water(self, at: datetime, end: datetime, batch: int, trays: list[int]) -> None:
        if at <= end:
            entry = self.entry("water", at, batch, trays, chore="water")
            self.rows.watering.append((entry, 250.0))

    def _look(self, at: datetime, end: datetime, batch: int, trays: list[int]) -> None:
        if at <= end:
            entry = self.entry("look", at, batch, trays, chore="look")
            self.rows.look.append(
                (entry, 90.0, 35.0, "none", "", False, True, None, "", None, "", "", False)
            )


def build_ten_years(
    path: Path, *, years: float = 10.0, trays_growing: int = 200, seed: int = 1
) -> None:
    """Make a book of `years` of finished trays and `trays_growing` that still grow at END."""
    room = BeginDraft(zone="Europe/London", racks=10, shelves=5, slots=8)
    start = END - timedelta(days=365.25 * years + DAYS_GROWN + 10)
    begin_book(path, room, FixedClock(start), "ab", "sample")
    finished = round(BATCHES_A_YEAR * years)
    growing = -(-trays_growing // TRAYS_A_BATCH)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA cache_size=-200000")
        connection.execute("BEGIN IMMEDIATE")
        builder = _Builder(connection, seed)
        for sown in _moments(start + timedelta(days=5), END - timedelta(days=DAYS_GROWN), finished):
            builder.batch(sown, END)
            if builder.batches % 500 == 0:
                builder.flush()
        builder.number = max(builder.number, 10_000)
        for sown in _moments(
            END - timedelta(days=DAYS_GROWN - 1), END - timedelta(days=1), growing
        ):
            builder.batch(sown, END)
        builder.flush()
        keep_words(Rows(connection))
        connection.execute("COMMIT")


def _moments(first: datetime, last: datetime, count: int) -> Iterator[datetime]:
    for place in range(count):
        at = first + (last - first) * (place / max(1, count - 1))
        yield at.replace(microsecond=0)


def main() -> None:
    from logbook.actions.book import open_book
    from logbook.actions.care.closing import close_days, days_not_as_closed
    from logbook.store.file.copies import copy_file
    from logbook.store.file.health import integrity_faults, row_counts

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("path", type=Path)
    parser.add_argument("--years", type=float, default=10.0)
    parser.add_argument("--growing", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    began = time.perf_counter()
    build_ten_years(given.path, years=given.years, trays_growing=given.growing, seed=given.seed)
    print(f"built in {time.perf_counter() - began:.1f} s, {given.path.stat().st_size / 1e6:.0f} MB")
    with closing(sqlite3.connect(given.path)) as connection:
        print(row_counts(connection))
        entries, index = (
            connection.execute(sql).fetchone()[0]
            for sql in ("SELECT count(*) FROM entry",
                        "SELECT sum(pgsize) FROM dbstat WHERE name GLOB 'entry_index*'")
        )  # fmt: skip
        each = (given.path.stat().st_size - (index or 0)) / entries
        print(f"{each:.0f} bytes an entry without the search index")
    began = time.perf_counter()
    assert integrity_faults(given.path) == []
    print(f"SQLite's check {time.perf_counter() - began:.2f} s")
    began = time.perf_counter()
    target = given.path.with_name(f"{given.path.name}.copy.xz")
    copy_file(given.path, target)
    size = target.stat().st_size / 1e6
    print(f"packed, checked, synced copy {time.perf_counter() - began:.2f} s, {size:.0f} MB")
    book, days, began = open_book(given.path, FixedClock(END)), 0, time.process_time()
    while closed := close_days(book):
        days += closed
    print(f"{days} days closed, {(time.process_time() - began) / days * 1000:.1f} ms of CPU each")
    for words, quick in (("daily look at closed days", True), ("all closed days", False)):
        began = time.process_time()
        assert days_not_as_closed(given.path, book.today(), quick=quick) == []
        print(f"{words} {time.process_time() - began:.2f} s of CPU")


if __name__ == "__main__":
    main()
