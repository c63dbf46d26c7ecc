"""Air readings at places, as standing entries tell them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.room.air import AirReading
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, stored

_AIR = (
    'SELECT a.at AS "when", a.celsius, a.humidity, a.still FROM air_reading a '
    f"JOIN entry e ON e.id = a.entry_id WHERE a.place_id = ? AND {STANDS}"
)


def read_air(reading: Rows, place: int, start: datetime, end: datetime) -> list[AirReading]:
    """The standing air readings of a place (id) from start up to end, oldest first."""
    return reading.make(
        AirReading,
        f"{_AIR} AND a.at >= ? AND a.at < ? ORDER BY a.at, a.id",
        (place, stored(start), stored(end)),
    )


def newest_air(reading: Rows) -> dict[int, AirReading]:
    """The newest standing air reading of every place (id) that has one."""
    found: dict[int, AirReading] = {}
    for (place,) in reading.rows("SELECT id FROM place"):
        newest = f"{_AIR} ORDER BY a.at DESC, a.id DESC LIMIT 1"
        for each in reading.make(AirReading, newest, (place,)):
            found[place] = each
    return found


@dataclass(frozen=True, slots=True)
class AirCount:
    """How many air readings an entry has, and the least and most °C and % of them."""

    entry: int
    readings: int
    coldest: float
    warmest: float
    driest: float
    dampest: float


def count_air(reading: Rows, entries: Collection[int]) -> dict[int, AirCount]:
    """What the air readings of entries span, by entry."""
    counts = reading.make_of(
        AirCount,
        "SELECT entry_id AS entry, count(*) AS readings, min(celsius) AS coldest, "
        "max(celsius) AS warmest, min(humidity) AS driest, max(humidity) AS dampest "
        "FROM air_reading WHERE entry_id IN (ids) GROUP BY entry_id",
        entries,
    )
    return {each.entry: each for each in counts}
