"""What entries carry beside their note, in the narrow tables: read, of struck entries too, and copied."""

from collections.abc import Callable, Collection, Mapping
from datetime import datetime
from typing import Any

from logbook.growing.kinds import Carried, kind_of
from logbook.growing.room.power import LampSet
from logbook.growing.wall_hours import WallHours
from logbook.store.reads.air import count_air
from logbook.store.reads.holds import held_by
from logbook.store.reads.lamps import LAMP_COLUMNS, tariffs_of, wall_hours_of
from logbook.store.reads.recalls import recalls_of
from logbook.store.reads.said import read_looks, read_spots, read_weights
from logbook.store.reads.seed import bags_of, counts_of, seed_weights_of
from logbook.store.reads.upkeep import checks_of
from logbook.store.reads.uses import uses_of
from logbook.store.reads.water import read_water_of
from logbook.store.rows import Rows, grouped, moment
from logbook.store.writer import Writer

OF = "WHERE entry_id IN (ids)"


def _lamps(reading: Rows, entries: Collection[int]) -> dict[int, LampSet]:
    sql = f"SELECT entry_id, {', '.join(LAMP_COLUMNS)} FROM lamp_set {OF}"
    return reading.make_by(LampSet, sql, entries)


def _hours(reading: Rows, entries: Collection[int]) -> dict[int, WallHours | None]:
    sql = f"SELECT entry_id, lamp_on, lamp_off FROM lamp_hours {OF}"
    return {entry: wall_hours_of(on, off) for entry, on, off in reading.rows_of(sql, entries)}


def _outages(reading: Rows, entries: Collection[int]) -> dict[int, datetime]:
    rows = reading.rows_of(f"SELECT entry_id, until FROM outage {OF}", entries)
    return {entry: moment(until) for entry, until in rows}


def _circuits(reading: Rows, entries: Collection[int]) -> dict[int, str]:
    sql = f"SELECT entry_id, CASE WHEN gone = 1 THEN name || ' is gone' ELSE name END FROM circuit {OF}"
    return dict(reading.rows_of(sql, entries))


def _light(reading: Rows, entries: Collection[int]) -> dict[int, list[float]]:
    sql = f"SELECT entry_id, ppfd FROM light_spot {OF} ORDER BY spot_row, spot_column"
    return grouped(reading.rows_of(sql, entries))


READERS: dict[Carried, Callable[[Rows, Collection[int]], Mapping[int, Any]]] = {
    "weights": read_weights, "look": read_looks, "watering": read_water_of, "placing": read_spots,
    "lamps": _lamps, "hours": _hours, "tariff": tariffs_of, "circuit": _circuits, "light": _light,
    "air": count_air, "use": uses_of, "check": checks_of,
    "outage": _outages, "bag": bags_of, "seed count": counts_of, "seed weight": seed_weights_of,
    "held": held_by, "recall": recalls_of,
}  # fmt: skip
"""What reads each thing that an entry may carry, by entry id. A seed lot is its batch's."""


def read_details(reading: Rows, kinds: Mapping[int, str]) -> dict[Carried, Mapping[int, Any]]:
    """What entries (id → kind) carry, each by entry id; only what their kinds carry is read."""
    wanted = {
        carried: [entry for entry, kind in kinds.items() if carried in kind_of(kind).carries]
        for carried in READERS
    }
    return {carried: READERS[carried](reading, ids) for carried, ids in wanted.items() if ids}


def copy_details(writer: Writer, old: int, new: int) -> None:
    """Write every detail of one entry anew for another."""
    for table, columns in writer.tables.items():
        names = [each.name for each in columns]
        if "entry_id" not in names or table in ("entry_tray", "entry_words"):
            continue
        copied = ", ".join(f'"{name}"' for name in names if name not in ("id", "entry_id"))
        writer.connection.execute(
            f'INSERT INTO "{table}" (entry_id, {copied}) '
            f'SELECT ?, {copied} FROM "{table}" WHERE entry_id = ?',
            (new, old),
        )
