"""Air readings at places, as standing entries tell them."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from logbook.growing.room.air import AirReading
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, stored

_AIR = (
    "SELECT a.at, a.celsius, a.humidity, a.still FROM air_reading a "
    f"JOIN entry e ON e.id = a.entry_id WHERE a.place_id = ? AND {STANDS}"
)


def read_air(reading: Rows, place: int, start: datetime, end: datetime) -> list[AirReading]:
    """The standing air readings of a place (id) from start up to end, oldest first."""
    return reading.make(
        AirReading,
        f"{_AIR} AND a.at >= ? AND a.at < ? ORDER BY a.at, a.id",
        (place, stored(start), stored(end)),
    )


def last_air(
    reading: Rows, place: int, start: datetime, end: datetime, most: int
) -> list[AirReading]:
    """The newest standing air readings of a place (id) from start up to end, at most so many."""
    newest = f"{_AIR} AND a.at >= ? AND a.at <= ? ORDER BY a.at DESC, a.id DESC LIMIT ?"
    return reading.make(AirReading, newest, (place, stored(start), stored(end), most))


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
    """How many air readings an entry has, their mean, least and most °C and %."""

    keys: ClassVar = """
        air_readings=readings celsius min_celsius=coldest max_celsius=warmest
        humidity_percent=humidity min_humidity_percent=driest max_humidity_percent=dampest
    """

    readings: int
    """How many air readings it has; the means, least and most are of these."""
    coldest: float
    warmest: float
    driest: float
    dampest: float
    celsius: float
    humidity: float


def count_air(reading: Rows, entries: Collection[int]) -> dict[int, AirCount]:
    """What the air readings of entries span, by entry."""
    return reading.make_by(
        AirCount,
        "SELECT entry_id, count(*) AS readings, min(celsius) AS coldest, max(celsius) AS warmest, "
        "min(humidity) AS driest, max(humidity) AS dampest, avg(celsius) AS celsius, "
        "avg(humidity) AS humidity FROM air_reading WHERE entry_id IN (ids) GROUP BY entry_id",
        entries,
    )


def count_together(counts: Collection[AirCount]) -> AirCount:
    """What several entries' readings span."""
    many = sum(each.readings for each in counts)
    return AirCount(
        many, min(each.coldest for each in counts), max(each.warmest for each in counts),
        min(each.driest for each in counts), max(each.dampest for each in counts),
        sum(each.readings * each.celsius for each in counts) / many,
        sum(each.readings * each.humidity for each in counts) / many,
    )  # fmt: skip
