"""Digests of the days that are over, each chained to the one before: by them it is seen what changed since.

What is digested is the same text on every machine: JSON in ASCII, moments rounded to what they are
written with, rows in the order of their keys. A column in which all of a day's rows have the table's
default is left out, so that a migration may add one. Entries are written once; undo and strikes are
entries of their own. So nothing that a grower does changes a day that is closed.
"""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from typing import Any
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of
from logbook.growing.kinds import that_carry
from logbook.store.columns import DERIVED, Column, read_columns
from logbook.store.rows import Rows, moment, quoted, stored

_SOWING = quoted(that_carry("lot"))
_BATCHES = f"(SELECT batch_id FROM entry WHERE id BETWEEN ? AND ? AND kind IN ({_SOWING}))"  # noqa: S608
_TRIALS = "(SELECT id FROM trial WHERE entry_id BETWEEN ? AND ?)"
WITHOUT_ENTRY = {
    "entry": "id BETWEEN ? AND ?", "batch": f"id IN {_BATCHES}", "batch_lot": f"batch_id IN {_BATCHES}",
    "trial_arm": f"trial_id IN {_TRIALS}", "trial_block": f"trial_id IN {_TRIALS}",
}  # fmt: skip
"""What belongs to entries in tables that do not name them by `entry_id`."""


@dataclass(frozen=True, slots=True)
class ClosedDay:
    """The entries that were written one after another till a day was over, and their digest."""

    day: date
    first_id: int
    last_id: int
    sha256: str


@dataclass(frozen=True, slots=True)
class _Part:
    table: str
    sql: str
    columns: tuple[tuple[str, bool, object], ...]
    """Name, whether it is a moment, the value of a row that does not say."""

    def said(self, rows: Iterable[tuple[Any, ...]]) -> list[object]:
        found: list[object] = [self.table]
        for (name, timed, default), values in zip(
            self.columns, zip(*rows, strict=True), strict=True
        ):
            if any(value != default for value in values):
                found.append([name, [_whole(value) for value in values] if timed else values])
        return found


def _whole(value: Any) -> Any:
    return stored(moment(value)) if isinstance(value, float | str) else value


class Digester:
    """Digests what the tables of a book say of runs of entries."""

    def __init__(self, reading: Rows) -> None:
        self.reading = reading
        self.parts = [
            part
            for name, columns in read_columns(reading).items()
            if not name.startswith(DERIVED) and (part := self._part(name, columns))
        ]

    def _part(self, table: str, columns: list[Column]) -> _Part | None:
        own = any(each.name == "entry_id" for each in columns)
        where = WITHOUT_ENTRY.get(table, "entry_id BETWEEN ? AND ?" if own else "")
        said = sorted(columns)
        keys = sorted((each for each in columns if each.key), key=lambda each: each.key)
        listed = [", ".join(f'"{each.name}"' for each in some) for some in (said, keys)]
        sql = f'SELECT {listed[0]} FROM "{table}" WHERE {where} ORDER BY {listed[1]}'  # noqa: S608
        return _Part(table, sql, tuple(self._said(each) for each in said)) if where else None

    def _said(self, column: Column) -> tuple[str, bool, object]:
        says = column.default is not None and not column.key
        default = self.reading.value(f"SELECT {column.default}") if says else None
        return column.name, column.type == "DATETIME", default

    def of(self, day: date, first: int, last: int, before: str) -> str:
        """The digest of a run of entries, after the digest of the one before."""
        found = sha256(json.dumps([before, day.isoformat(), first, last]).encode())
        for part in self.parts:
            if rows := self.reading.rows(part.sql, (first, last)):
                found.update(json.dumps(part.said(rows), default=repr).encode())
        return found.hexdigest()


_CLOSED = "SELECT day, first_id, last_id, sha256 FROM closed_day ORDER BY last_id"


def read_closed_days(reading: Rows) -> list[ClosedDay]:
    """The closed days, in the order in which they were written."""
    return reading.make(ClosedDay, _CLOSED)


def newest_closed(reading: Rows) -> ClosedDay | None:
    """The day that was closed last."""
    return next(iter(reading.make(ClosedDay, f"{_CLOSED} DESC LIMIT 1")), None)


def closed_after(
    reading: Rows, closed: ClosedDay | None, today: date, zone: ZoneInfo, most: int
) -> list[ClosedDay]:
    """The days after a closed one that are over, with their digests, of `most` entries; not yet written.

    What a clock that went back wrote belongs to the day before it; what was written ahead of today
    stands alone.
    """
    last, before = (closed.last_id, closed.sha256) if closed else (0, "")
    rows = reading.rows(
        "SELECT id, written_at FROM entry WHERE id > ? ORDER BY id LIMIT ?", (last, most)
    )
    runs: list[tuple[date, int]] = []
    for entry, written in rows:
        day = day_of(moment(written), zone)
        if runs and day <= runs[-1][0] and not day <= today < runs[-1][0]:
            day = runs.pop()[0]
        runs.append((day, entry))
    if len(rows) == most and len(runs) > 1:
        del runs[-1]  # the rest of it was not read
    digester, made = Digester(reading), []
    for place, (day, end) in enumerate(runs):
        if place < len(runs) - 1 or day < today:
            first, last = last + 1, end
            before = digester.of(day, first, last, before)
            made.append(ClosedDay(day, first, last, before))
    return made


def keep_closed(reading: Rows, days: Iterable[ClosedDay]) -> None:
    """Write closed days, in the caller's transaction."""
    reading.connection.executemany(
        "INSERT INTO closed_day (last_id, first_id, day, sha256) VALUES (?, ?, ?, ?)",
        [(each.last_id, each.first_id, each.day.isoformat(), each.sha256) for each in days],
    )


def wrong_days(
    reading: Rows, days: list[ClosedDay], places: Iterable[int] | None = None
) -> list[ClosedDay]:
    """Those of the closed days, or of some by their places, that are not as they were closed."""
    digester, found = Digester(reading), []
    for place in range(len(days)) if places is None else places:
        each, before = days[place], days[place - 1] if place else None
        follows = each.first_id == (before.last_id if before else 0) + 1
        true = digester.of(each.day, each.first_id, each.last_id, before.sha256 if before else "")
        if not follows or true != each.sha256:
            found.append(each)
    return found
