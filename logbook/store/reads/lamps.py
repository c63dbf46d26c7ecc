"""What hangs over shelves, when and how it lights them, on which circuit, at what price; standing entries."""

from collections.abc import Collection
from dataclasses import dataclass, fields, replace
from datetime import date, datetime
from decimal import Decimal

from logbook.growing.currencies import Currency
from logbook.growing.room.light import Grid, Spot, Uniformity, uniformity
from logbook.growing.room.power import Circuit, LampSet
from logbook.growing.room.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import WallHours
from logbook.store.reads.standing import STANDS, standing
from logbook.store.rows import Rows, grouped

Minutes = tuple[int | None, int | None]


@dataclass(frozen=True, slots=True)
class StoredLamps:
    """A lamp set of a shelf (place id) from a moment on."""

    entry: int
    place: int
    at: datetime
    lamps: LampSet


@dataclass(frozen=True, slots=True)
class StoredHours:
    """Lamp hours of a shelf (place id) from a moment on, in minutes, and before; None for none."""

    entry: int
    place: int
    at: datetime
    lamp_on: int | None
    lamp_off: int | None
    was_on: int | None
    was_off: int | None

    @property
    def hours(self) -> WallHours | None:
        """The hours by the wall."""
        return wall_hours_of(self.lamp_on, self.lamp_off)


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredCircuit(Circuit):
    """A circuit with the shelves (place ids) whose lamps hang on it."""

    entry: int
    name_key: str
    gone: bool
    shelves: tuple[int, ...] = ()


def wall_hours_of(on: int | None, off: int | None) -> WallHours | None:
    """Stored minutes as hours by the wall, those without a length as all day; None for none."""
    if on is None or off is None:
        return None
    return WallHours(0, 1440) if on % 1440 == off % 1440 else WallHours(on % 1440, off)


LAMP_COLUMNS = tuple(field.name for field in fields(LampSet))


def read_lamp_sets(reading: Rows) -> list[StoredLamps]:
    """Every standing lamp set, oldest first."""
    return standing(reading, StoredLamps, "lamp_set")


@dataclass(frozen=True, slots=True)
class StoredOutage:
    """A time in which the power was off in a room, or at a place of it (id)."""

    entry: int
    place: int
    at: datetime
    until: datetime


def read_outages(reading: Rows) -> list[StoredOutage]:
    """Every standing time in which the power was off, oldest first."""
    return standing(reading, StoredOutage, "outage")


def read_lamp_hours(reading: Rows) -> list[StoredHours]:
    """Every standing change of lamp hours, oldest first."""
    return standing(reading, StoredHours, "lamp_hours")


def first_hours(reading: Rows) -> dict[int, Minutes]:
    """The hours that shelves (place ids) had before their first change, struck or not."""
    rows = reading.rows(
        "SELECT e.place_id, h.was_on, h.was_off FROM lamp_hours h CROSS JOIN entry e "
        "WHERE e.id = h.entry_id ORDER BY e.id DESC"
    )
    return {place: (on, off) for place, on, off in rows}


def last_hours(reading: Rows) -> dict[int, Minutes]:
    """The hours of the newest standing change of each shelf (place id)."""
    return {each.place: (each.lamp_on, each.lamp_off) for each in read_lamp_hours(reading)}


def read_tariffs(reading: Rows) -> list[Tariff]:
    """The tariffs by their first day; of two for one day the one written last."""
    rows = reading.rows(
        "SELECT e.id FROM tariff t CROSS JOIN entry e "
        f"WHERE e.id = t.entry_id AND {STANDS} ORDER BY e.id"
    )
    entries = [entry for (entry,) in rows]
    said = tariffs_of(reading, entries)
    newest = {said[entry].since: said[entry] for entry in entries}
    return [newest[since] for since in sorted(newest)]


def tariffs_of(reading: Rows, entries: Collection[int]) -> dict[int, Tariff]:
    """What entries say of the price, by entry id; of struck ones too."""
    rows = reading.rows_of(
        "SELECT entry_id, starts, ends, per_kwh FROM tariff_hours WHERE entry_id IN (ids) "
        "ORDER BY position",
        entries,
    )
    others = grouped(
        (entry, OtherHours(WallHours(starts % 1440, ends), Decimal(price)))
        for entry, starts, ends, price in rows
    )
    sql = "SELECT entry_id, since, per_kwh, currency FROM tariff, book WHERE entry_id IN (ids)"
    return {
        entry: Tariff(
            date.fromisoformat(since), Decimal(price), tuple(others.get(entry, ())), Currency(code)
        )
        for entry, since, price, code in reading.rows_of(sql, entries)
    }


def read_circuits(reading: Rows) -> list[StoredCircuit]:
    """The circuits as they were said last, by name."""
    shelves: dict[int, list[int]] = grouped(
        reading.rows("SELECT entry_id, place_id FROM circuit_shelf ORDER BY entry_id, place_id")
    )
    found: dict[str, StoredCircuit] = {}
    for each in standing(reading, StoredCircuit, "circuit", but=("shelves",)):
        found.pop(each.name_key, None)
        if not each.gone:
            found[each.name_key] = replace(each, shelves=tuple(shelves.get(each.entry, ())))
    return [found[key] for key in sorted(found)]


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
    spots: tuple[Spot, ...] = ()

    @property
    def even(self) -> Uniformity:
        """What its readings come to."""
        return uniformity([spot.ppfd for spot in self.spots])


MOST_SURVEYS = 100
"""Of so many of the newest light surveys a shelf's PPFD is looked for where it must be quick."""


def newest_ppfd(reading: Rows) -> dict[int, float]:
    """The mean PPFD (µmol/m²/s) of the newest standing survey of each shelf (id)."""
    rows = reading.rows(
        "SELECT e.place_id, avg(l.ppfd) FROM "
        "(SELECT entry_id FROM light_survey ORDER BY entry_id DESC LIMIT ?) n "
        "CROSS JOIN entry e ON e.id = n.entry_id CROSS JOIN light_spot l ON l.entry_id = e.id "
        f"WHERE {STANDS} GROUP BY e.id ORDER BY e.at, e.id",
        (MOST_SURVEYS,),
    )
    return dict(rows)


_OF_SURVEY = f"e.id = l.entry_id AND {STANDS}"


def read_surveys(reading: Rows) -> list[StoredSurvey]:
    """Every standing light survey, oldest first."""
    rows = reading.rows(
        "SELECT l.entry_id, l.spot_row, l.spot_column, l.ppfd FROM light_spot l "
        f"CROSS JOIN entry e WHERE {_OF_SURVEY} ORDER BY l.entry_id, l.spot_row, l.spot_column"
    )
    spots = grouped((entry, Spot(*spot)) for entry, *spot in rows)
    surveys = reading.make(
        StoredSurvey,
        'SELECT e.id AS entry, e.place_id AS place, e.at, e."by", e.note, l.height_mm, l.lux_lamp, '
        'l.spot_rows AS "grid.rows", l.spot_columns AS "grid.columns" '
        f"FROM light_survey l CROSS JOIN entry e WHERE {_OF_SURVEY} ORDER BY e.at, e.id",
    )
    return [replace(each, spots=tuple(spots.get(each.entry, ()))) for each in surveys]
