"""Reading trays with what their batch says of them."""

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.numbers import PAST
from logbook.growing.trays.tray_now import StoredTray
from logbook.store.reads.standing import STANDING_TRAY, STANDS
from logbook.store.rows import Rows, maybe_moment


@dataclass(frozen=True, slots=True)
class Life:
    """A tray under a number that others had before or since, from its sowing (or plan) on."""

    tray: int
    number: int
    start: datetime | None
    end: datetime | None
    live: bool
    template: str


LOTS = """
coalesce((SELECT group_concat(lot, ' + ') FROM
  (SELECT lot FROM batch_lot WHERE batch_id = b.id ORDER BY position) seed), '')
"""
"""The names of the seed lots of the batch b."""

_TRAY = f"""
SELECT t.id, t.number, t.batch_id, t.version_id, t.colour, t.live, {LOTS} AS lot,
       b.grams_per_tray, b.planned_for, t.ended_at, t.cut_grams
FROM tray t JOIN batch b ON b.id = t.batch_id
"""


def read_live_trays(reading: Rows) -> list[StoredTray]:
    """The trays that are planned or growing, by number."""
    return reading.make(StoredTray, f"{_TRAY} WHERE t.live = 1 ORDER BY t.number, t.id")


def read_trays(reading: Rows, ids: Collection[int]) -> list[StoredTray]:
    """Trays by their ids."""
    return read_trays_where(reading, "t.id IN (ids)", ids)


def read_trays_where(reading: Rows, where: str, ids: Collection[int]) -> list[StoredTray]:
    """Trays by what ids say of them, spelled (ids)."""
    return reading.make_of(StoredTray, f"{_TRAY} WHERE {where} ORDER BY t.id", ids)


def read_trays_of_batch(reading: Rows, batch_id: int) -> list[StoredTray]:
    """The trays of a batch, by number; those that wait for one first, in their order."""
    return reading.make(
        StoredTray, f"{_TRAY} WHERE t.batch_id = ? ORDER BY t.number, t.id", (batch_id,)
    )


def read_ends(reading: Rows, trays: Collection[int]) -> Iterator[tuple[int, int, datetime | None]]:
    """Of trays (ids): the id, the template version, when it left the rack."""
    sql = "SELECT id, version_id, ended_at FROM tray WHERE id IN (ids)"
    rows = reading.rows_of(sql, trays)
    return ((tray, version, maybe_moment(ended)) for tray, version, ended in rows)


def newest_trays_numbered(reading: Rows, numbers: Collection[int]) -> dict[int, StoredTray]:
    """For each number its live tray, else the newest that had it, those of struck sowings last."""
    live = reading.make_of(StoredTray, f"{_TRAY} WHERE t.live = 1 AND t.number IN (ids)", numbers)
    found = {tray.number: tray for tray in live}
    ended = reading.make_of(
        StoredTray,
        f"{_TRAY} WHERE t.number IN (ids) ORDER BY t.ended_at IS NOT NULL, t.id",
        [number for number in numbers if number not in found],
    )
    return {tray.number: tray for tray in ended} | found


def lives_of(reading: Rows, number: int) -> list[Life]:
    """The trays that had a number, with their days, oldest first; none whose sowing was struck."""
    sown = f"""
    SELECT t.id AS tray, t.number, coalesce(
      (SELECT max(e.at) FROM entry_tray et JOIN entry e ON e.id = et.entry_id
       WHERE et.tray_id = t.id AND e.kind = 'sow' AND {STANDS}), b.planned_for) AS start,
      t.ended_at AS "end", t.live, c.name AS template
    FROM tray t JOIN batch b ON b.id = t.batch_id
    JOIN template_version v ON v.id = t.version_id JOIN template c ON c.id = v.template_id
    WHERE t.number = ? AND {STANDING_TRAY} ORDER BY start, t.id
    """
    return reading.make(Life, sown, (number,))


def trays_numbered(reading: Rows, number: int) -> list[int]:
    """The ids of all trays that had a number, struck sowings too."""
    return [tray for (tray,) in reading.rows("SELECT id FROM tray WHERE number = ?", (number,))]


def live_numbers(reading: Rows) -> set[int]:
    """The numbers that are on trays in use."""
    rows = reading.rows("SELECT number FROM tray WHERE live = 1 AND number > 0")
    return {number for (number,) in rows}


def numbers_out_of_use(reading: Rows, pool: range) -> list[int]:
    """The free numbers of a pool, unused ones (also by struck sowings), then those longest free."""
    used = reading.rows(
        "SELECT number, max(live), max(ended_at) FROM tray WHERE number BETWEEN ? AND ? "
        "GROUP BY number",
        (pool[0], pool[-1]),
    )
    last = {number: math.inf if live else ended or 0 for number, live, ended in used}
    free = [number for number in pool if last.get(number) != math.inf]
    return sorted(free, key=lambda number: last.get(number, 0))


def last_used_number(reading: Rows) -> int | None:
    """The number of the tray that was written last.

    Struck sowings do not count, nor do trays of the past. The + keeps SQLite from the index of
    the numbers, which would sort them all; the newest few rows are enough.
    """
    number: int | None = reading.value(
        "SELECT number FROM tray WHERE +number BETWEEN 1 AND ? AND (live = 1 OR ended_at IS NOT NULL) "
        "ORDER BY id DESC LIMIT 1",
        (PAST - 1,),
    )
    return number


def last_past_number(reading: Rows) -> int | None:
    """The number of the tray of the past that was written last."""
    number: int | None = reading.value(
        "SELECT number FROM tray WHERE number >= ? ORDER BY id DESC LIMIT 1", (PAST,)
    )
    return number


def numbers_twice(reading: Rows, trays: Collection[int]) -> list[int]:
    """The numbers of these trays that another tray in use has too."""
    rows = reading.rows_of(
        "SELECT DISTINCT t.number FROM tray t JOIN tray o ON o.number = t.number "
        "AND o.id <> t.id AND o.live = 1 WHERE t.id IN (ids)",
        trays,
    )
    return sorted({number for (number,) in rows})
