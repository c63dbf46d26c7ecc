"""Reading what is known of light, power, air and water: plain SQL in, values of growing out.

Only standing entries count; nothing here commits.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from logbook.growing.air import AirReading
from logbook.growing.bands import Band
from logbook.growing.lamps import LampSet
from logbook.growing.spots import Grid, Spot
from logbook.growing.targets import LightTarget, Targets
from logbook.growing.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import WallHours
from logbook.growing.water import WaterReading, WaterTarget
from logbook.store.reads import STANDS, StoredTray, read_trays
from logbook.store.rows import Rows, chunks, moment, stored


def _marks(values: Collection[object]) -> str:
    return ",".join("?" * len(values))


@dataclass(frozen=True, slots=True)
class StoredLamps:
    """A lamp set of a shelf (place id) from a moment on."""

    entry: int
    place: int
    at: datetime
    lamps: LampSet


@dataclass(frozen=True, slots=True)
class StoredHours:
    """Lamp hours of a shelf (place id) from a moment on; None for none."""

    entry: int
    place: int
    at: datetime
    hours: WallHours | None


@dataclass(frozen=True, slots=True)
class StoredCircuit:
    """A circuit with the shelves (place ids) whose lamps hang on it."""

    entry: int
    name: str
    breaker_amps: float
    volts: float
    share_percent: float
    other_amps: float
    shelves: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class StoredSurvey:
    """A walk round a shelf with a meter; `height_mm` from tray to lamp, `lux_lamp` '' for PPFD."""

    entry: int
    place: int
    at: datetime
    by: str
    note: str
    grid: Grid
    height_mm: float | None
    lux_lamp: str
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class StoredWater:
    """Water as measured, with a watering or by itself; trays by number, place id or None."""

    entry: int
    kind: str
    at: datetime
    by: str
    place: int | None
    trays: tuple[int, ...]
    versions: tuple[int, ...]
    reading: WaterReading


@dataclass(frozen=True, slots=True)
class StoredUse:
    """A solution that was used, or a cleaning."""

    entry: int
    at: datetime
    by: str
    place: int | None
    note: str
    purpose: str
    method: str
    product: str
    stock_percent: float | None
    want_percent: float | None
    volume_ml: float | None


def wall_hours_of(on: int | None, off: int | None) -> WallHours | None:
    """Give stored minutes as hours by the wall; None where there are none.

    Hours without a length (24:00-00:00), which no entry gets, are read as all day.
    """
    if on is None or off is None:
        return None
    return WallHours(0, 1440) if on % 1440 == off % 1440 else WallHours(on % 1440, off)


def read_lamp_sets(reading: Rows) -> list[StoredLamps]:
    """Give every standing lamp set, oldest first."""
    rows = reading.rows(
        "SELECT e.id, e.place_id, e.at, l.lamps, l.watts, l.kind, l.light, l.amps, l.volts, "
        "l.height_mm, l.bought FROM lamp_set l CROSS JOIN entry e "
        f"WHERE e.id = l.entry_id AND {STANDS} ORDER BY e.at, e.id"
    )
    return [
        StoredLamps(
            row[0],
            row[1],
            moment(row[2]),
            lamp_set_of(row[3:]),
        )
        for row in rows
    ]


def lamp_set_of(row: Sequence[Any]) -> LampSet:
    """Give stored columns (lamps, watts, kind, light, amps, volts, height, bought) as a lamp set."""
    columns: list[Any] = list(row)
    if columns[-1] is not None:
        columns[-1] = date.fromisoformat(columns[-1])
    return LampSet(*columns)


def read_lamp_hours(reading: Rows) -> list[StoredHours]:
    """Give every standing change of lamp hours, oldest first."""
    rows = reading.rows(
        "SELECT e.id, e.place_id, e.at, h.lamp_on, h.lamp_off FROM lamp_hours h "
        f"CROSS JOIN entry e WHERE e.id = h.entry_id AND {STANDS} ORDER BY e.at, e.id"
    )
    return [
        StoredHours(row[0], row[1], moment(row[2]), wall_hours_of(row[3], row[4])) for row in rows
    ]


def first_hours(reading: Rows) -> dict[int, tuple[int | None, int | None]]:
    """Give the hours that shelves (place ids) had before their first change, struck or not."""
    rows = reading.rows(
        "SELECT e.place_id, h.was_on, h.was_off FROM lamp_hours h "
        "CROSS JOIN entry e WHERE e.id = h.entry_id ORDER BY e.id DESC"
    )
    return {row[0]: (row[1], row[2]) for row in rows}


def last_hours(reading: Rows) -> dict[int, tuple[int | None, int | None]]:
    """Give the hours of the newest standing change of each shelf (place id)."""
    rows = reading.rows(
        "SELECT e.place_id, h.lamp_on, h.lamp_off FROM lamp_hours h "
        f"CROSS JOIN entry e WHERE e.id = h.entry_id AND {STANDS} ORDER BY e.at, e.id"
    )
    return {row[0]: (row[1], row[2]) for row in rows}


def read_tariffs(reading: Rows) -> list[Tariff]:
    """Give the tariffs by their first day; of two for one day the one written last."""
    others: dict[int, list[OtherHours]] = {}
    for row in reading.rows(
        "SELECT entry_id, starts, ends, per_kwh FROM tariff_hours ORDER BY entry_id, position"
    ):
        others.setdefault(row[0], []).append(OtherHours(WallHours(row[1] % 1440, row[2]), row[3]))
    found: dict[date, Tariff] = {}
    for row in reading.rows(
        "SELECT e.id, t.since, t.per_kwh FROM tariff t CROSS JOIN entry e "
        f"WHERE e.id = t.entry_id AND {STANDS} ORDER BY e.id"
    ):
        since = date.fromisoformat(row[1])
        found[since] = Tariff(since, row[2], tuple(others.get(row[0], ())))
    return [found[since] for since in sorted(found)]


def read_circuits(reading: Rows) -> list[StoredCircuit]:
    """Give the circuits as they were said last, by name."""
    shelves: dict[int, list[int]] = {}
    for entry, place in reading.rows(
        "SELECT entry_id, place_id FROM circuit_shelf ORDER BY entry_id, place_id"
    ):
        shelves.setdefault(entry, []).append(place)
    found: dict[str, StoredCircuit] = {}
    for row in reading.rows(
        "SELECT e.id, c.name, c.breaker_amps, c.volts, c.share_percent, c.other_amps, c.name_key, "
        "c.gone FROM circuit c CROSS JOIN entry e "
        f"WHERE e.id = c.entry_id AND {STANDS} ORDER BY e.at, e.id"
    ):
        found.pop(row[6], None)
        if not row[7]:
            columns: list[Any] = [*row[:6], tuple(shelves.get(row[0], ()))]
            found[row[6]] = StoredCircuit(*columns)
    return [found[key] for key in sorted(found)]


def read_surveys(reading: Rows, place: int | None = None) -> list[StoredSurvey]:
    """Give every standing light survey, of all shelves or one, oldest first."""
    only = "" if place is None else "AND e.place_id = ?"
    given = () if place is None else (place,)
    spots: dict[int, list[Spot]] = {}
    for row in reading.rows(
        "SELECT s.entry_id, s.spot_row, s.spot_column, s.ppfd FROM light_spot s "
        f"CROSS JOIN entry e WHERE e.id = s.entry_id AND {STANDS} {only} "
        "ORDER BY s.entry_id, s.spot_row, s.spot_column",
        given,
    ):
        spots.setdefault(row[0], []).append(Spot(*row[1:]))
    rows = reading.rows(
        'SELECT e.id, e.place_id, e.at, e."by", e.note, l.spot_rows, l.spot_columns, l.height_mm, '
        "l.lux_lamp FROM light_survey l CROSS JOIN entry e "
        f"WHERE e.id = l.entry_id AND {STANDS} {only} ORDER BY e.at, e.id",
        given,
    )
    return [
        StoredSurvey(
            row[0],
            row[1],
            moment(row[2]),
            row[3],
            row[4],
            Grid(row[5], row[6]),
            row[7],
            row[8],
            tuple(spots.get(row[0], ())),
        )
        for row in rows
    ]


def read_air(reading: Rows, place: int, start: datetime, end: datetime) -> list[AirReading]:
    """Give the standing air readings of a place (id) from start up to end, oldest first."""
    rows = reading.rows(
        "SELECT a.at, a.celsius, a.humidity, a.still FROM air_reading a "
        "JOIN entry e ON e.id = a.entry_id "
        f"WHERE a.place_id = ? AND a.at >= ? AND a.at < ? AND {STANDS} ORDER BY a.at, a.id",
        (place, stored(start), stored(end)),
    )
    return [
        AirReading(moment(row[0]), row[1], row[2], None if row[3] is None else bool(row[3]))
        for row in rows
    ]


def newest_air(reading: Rows) -> dict[int, AirReading]:
    """Give the newest standing air reading of every place (id) that has one."""
    found: dict[int, AirReading] = {}
    places = reading.rows("SELECT id FROM place")
    for (place,) in places:
        row = reading.row(
            "SELECT a.at, a.celsius, a.humidity, a.still FROM air_reading a "
            f"JOIN entry e ON e.id = a.entry_id WHERE a.place_id = ? AND {STANDS} "
            "ORDER BY a.at DESC, a.id DESC LIMIT 1",
            (place,),
        )
        if row is not None:
            still = None if row[3] is None else bool(row[3])
            found[place] = AirReading(moment(row[0]), row[1], row[2], still)
    return found


def count_air(
    reading: Rows, entries: Collection[int]
) -> dict[int, tuple[int, float, float, float, float]]:
    """Give, by entry, how many air readings it has, and least and most °C and %."""
    found: dict[int, tuple[int, float, float, float, float]] = {}
    for some in chunks(entries):
        for row in reading.rows(
            "SELECT entry_id, count(*), min(celsius), max(celsius), min(humidity), max(humidity) "
            f"FROM air_reading WHERE entry_id IN ({_marks(some)}) GROUP BY entry_id",
            some,
        ):
            found[row[0]] = row[1:]
    return found


def read_water(reading: Rows, start: datetime, end: datetime) -> list[StoredWater]:
    """Give standing waterings and water readings with a measured pH or EC, oldest first."""
    rows = reading.rows(
        'SELECT e.id, e.kind, e.at, e."by", e.place_id, w.ph, w.ec, w.amount_ml FROM entry e '
        "CROSS JOIN watering w WHERE w.entry_id = e.id AND (w.ph IS NOT NULL OR w.ec IS NOT NULL) "
        f"AND e.at >= ? AND e.at < ? AND {STANDS} ORDER BY e.at, e.id",
        (stored(start), stored(end)),
    )
    trays = _versions_of(reading, [row[0] for row in rows])
    return [
        StoredWater(
            row[0],
            row[1],
            moment(row[2]),
            row[3],
            row[4],
            tuple(number for number, _ in trays.get(row[0], ())),
            tuple(dict.fromkeys(version for _, version in trays.get(row[0], ()))),
            WaterReading(*row[5:8]),
        )
        for row in rows
    ]


def _versions_of(reading: Rows, entries: Collection[int]) -> dict[int, list[tuple[int, int]]]:
    """Give (tray number, template version id) of each tray that an entry speaks of, by entry."""
    found: dict[int, list[tuple[int, int]]] = {}
    for some in chunks(entries):
        for entry, number, version in reading.rows(
            "SELECT et.entry_id, t.number, t.version_id FROM entry_tray et "
            f"JOIN tray t ON t.id = et.tray_id WHERE et.entry_id IN ({_marks(some)}) "
            "ORDER BY t.number",
            some,
        ):
            found.setdefault(entry, []).append((number, version))
    return found


def read_water_targets(reading: Rows, entries: Collection[int]) -> dict[int, list[WaterTarget]]:
    """Give what the templates of an entry's trays want of their water, by entry."""
    trays = _versions_of(reading, entries)
    targets = read_targets(reading, {version for each in trays.values() for _, version in each})
    return {
        entry: [
            targets[version].water
            for version in dict.fromkeys(v for _, v in each)
            if version in targets
        ]
        for entry, each in trays.items()
    }


def read_water_of(reading: Rows, entries: Collection[int]) -> dict[int, WaterReading]:
    """Give what was measured of the water, by entry; nothing for entries that measured nothing."""
    found: dict[int, WaterReading] = {}
    for some in chunks(entries):
        for row in reading.rows(
            f"SELECT entry_id, ph, ec, amount_ml FROM watering WHERE entry_id IN ({_marks(some)})",
            some,
        ):
            if any(value is not None for value in row[1:]):
                found[row[0]] = WaterReading(*row[1:])
    return found


def read_uses(reading: Rows, start: datetime, end: datetime) -> list[StoredUse]:
    """Give the standing uses of solutions and cleanings, oldest first."""
    rows = reading.rows(
        'SELECT e.id, e.at, e."by", e.place_id, e.note, u.purpose, u.method, u.product, '
        "u.stock_percent, u.want_percent, u.volume_ml FROM solution_use u "
        f"JOIN entry e ON e.id = u.entry_id WHERE e.at >= ? AND e.at < ? AND {STANDS} "
        "ORDER BY e.at, e.id",
        (stored(start), stored(end)),
    )
    return [StoredUse(row[0], moment(row[1]), *row[2:]) for row in rows]


def read_targets(reading: Rows, versions: Collection[int]) -> dict[int, Targets]:
    """Give the targets of template versions (ids) that have any."""
    found: dict[int, Targets] = {}
    for some in chunks(versions):
        for row in reading.rows(
            "SELECT version_id, light_low, light_high, lit_hours, celsius_low, celsius_high, "
            "humidity_low, humidity_high, ph_low, ph_high, ec_low, ec_high, water_low_ml, "
            f"water_high_ml FROM template_target WHERE version_id IN ({_marks(some)})",
            some,
        ):
            found[row[0]] = Targets(
                light=None if row[1] is None else LightTarget(row[1], row[2]),
                lit_hours=row[3],
                celsius=_band(row[4:6]),
                humidity=_band(row[6:8]),
                water=WaterTarget(_band(row[8:10]), _band(row[10:12]), _band(row[12:14])),
            )
    return found


def _band(ends: Sequence[float | None]) -> Band | None:
    low, high = ends
    return None if low is None and high is None else Band(low, high)


def batches_cut_last(reading: Rows, most: int) -> list[int]:
    """Give the batches whose trays were cut last, the newest first."""
    rows = reading.rows(
        "SELECT batch_id, max(ended_at) AS last FROM tray WHERE cut_grams IS NOT NULL "
        "AND ended_at IS NOT NULL GROUP BY batch_id ORDER BY last DESC, batch_id DESC LIMIT ?",
        (most,),
    )
    return [row[0] for row in rows]


def first_sowings(reading: Rows, batches: Collection[int]) -> list[datetime]:
    """Give when each of these batches was first sown; those that are not give nothing."""
    found = []
    for some in chunks(batches):
        found += [
            moment(row[0])
            for row in reading.rows(
                "SELECT min(e.at) FROM entry e JOIN entry_tray et ON et.entry_id = e.id "
                "JOIN tray t ON t.id = et.tray_id "
                f"WHERE e.kind = 'sow' AND {STANDS} AND t.batch_id IN ({_marks(some)}) "
                "GROUP BY t.batch_id",
                some,
            )
        ]
    return found


def read_trays_since(reading: Rows, start: datetime) -> list[StoredTray]:
    """Give the trays that live, or ended after a moment."""
    rows = reading.rows("SELECT id FROM tray WHERE live = 1 OR ended_at >= ?", (stored(start),))
    return read_trays(reading, [row[0] for row in rows])
