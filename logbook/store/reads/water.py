"""Water as it was given and measured, and the solutions that were used, from standing entries."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import datetime

from logbook.growing.crops.targets import Targets
from logbook.growing.room.water import WaterReading
from logbook.store.reads.standing import STANDS
from logbook.store.reads.templates import read_targets
from logbook.store.rows import Rows, grouped, stored


@dataclass(frozen=True, slots=True)
class StoredWater:
    """Water as measured, with a watering or by itself; trays by number, place id or None."""

    entry: int
    kind: str
    at: datetime
    by: str
    place: int | None
    reading: WaterReading
    trays: tuple[int, ...] = ()
    versions: tuple[int, ...] = ()


_WATER = 'w.ph AS "reading.ph", w.ec AS "reading.ec", w.amount_ml AS "reading.millilitres"'


def read_water(reading: Rows, start: datetime, end: datetime) -> list[StoredWater]:
    """Standing waterings and water readings with a measured pH or EC, oldest first."""
    found = reading.make(
        StoredWater,
        f'SELECT e.id AS entry, e.kind, e.at, e."by", e.place_id AS place, {_WATER} FROM entry e '
        "CROSS JOIN watering w WHERE w.entry_id = e.id AND (w.ph IS NOT NULL OR w.ec IS NOT NULL) "
        f"AND e.at >= ? AND e.at < ? AND {STANDS} ORDER BY e.at, e.id",
        (stored(start), stored(end)),
    )
    trays = _versions_of(reading, [each.entry for each in found])
    return [
        replace(
            each,
            trays=tuple(number for number, _ in trays.get(each.entry, ())),
            versions=tuple(dict.fromkeys(version for _, version in trays.get(each.entry, ()))),
        )
        for each in found
    ]


def last_water(
    reading: Rows, trays: Collection[int] | None, place: int | None, start: datetime,
    end: datetime, most: int,
) -> list[WaterReading]:  # fmt: skip
    """The newest standing water of any of these trays (ids) from start up to end, at most so many.

    Without trays those of none, at a place (id) or of the room as a whole; None for all trays.
    """
    mine = "EXISTS (SELECT 1 FROM entry_tray et WHERE et.entry_id = e.id{})"
    where, of = f"NOT {mine.format('')} AND e.place_id IS ?", [place]
    if trays is None:
        where, of = mine.format(""), []
    elif trays:
        marks = ", ".join("?" * len(trays))
        where, of = mine.format(f" AND et.tray_id IN ({marks})"), [*trays]
    return reading.make(
        WaterReading,
        "SELECT w.ph, w.ec, w.amount_ml AS millilitres FROM entry e "
        "CROSS JOIN watering w WHERE w.entry_id = e.id AND e.at >= ? AND e.at <= ? "
        f"AND {where} AND {STANDS} ORDER BY e.at DESC, e.id DESC LIMIT ?",
        (stored(start), stored(end), *of, most),
    )


def _versions_of(reading: Rows, entries: Collection[int]) -> dict[int, list[tuple[int, int]]]:
    """(tray number, template version id) of each tray that an entry speaks of, by entry."""
    rows = reading.rows_of(
        "SELECT et.entry_id, t.number, t.version_id FROM entry_tray et "
        "JOIN tray t ON t.id = et.tray_id WHERE et.entry_id IN (ids) ORDER BY t.number",
        entries,
    )
    return grouped((entry, (number, version)) for entry, number, version in rows)


def read_water_targets(reading: Rows, entries: Collection[int]) -> dict[int, list[Targets]]:
    """What the templates of an entry's trays want of their water, by entry."""
    trays = _versions_of(reading, entries)
    targets = read_targets(reading, {version for each in trays.values() for _, version in each})
    return {
        entry: [
            targets[version] for version in dict.fromkeys(v for _, v in each) if version in targets
        ]
        for entry, each in trays.items()
    }


def read_water_of(reading: Rows, entries: Collection[int]) -> dict[int, WaterReading]:
    """What was measured of the water, by entry; nothing for entries that measured nothing."""
    measured = "ph IS NOT NULL OR ec IS NOT NULL OR amount_ml IS NOT NULL"
    sql = f"SELECT entry_id, ph, ec, amount_ml AS millilitres FROM watering WHERE ({measured})"
    return reading.make_by(WaterReading, f"{sql} AND entry_id IN (ids)", entries)
