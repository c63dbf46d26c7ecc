"""What the narrow tables hold for given entries about the room, struck ones too."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date

from logbook.growing.lamps import LampSet
from logbook.growing.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import WallHours
from logbook.store.reads_room import lamp_set_of, wall_hours_of
from logbook.store.rows import Rows, chunks


@dataclass(frozen=True, slots=True)
class RoomDetails:
    """By entry id: lamps, hours, tariffs, circuit names, PPFD readings, and uses of solutions."""

    lamps: dict[int, LampSet] = field(default_factory=dict)
    hours: dict[int, WallHours | None] = field(default_factory=dict)
    tariffs: dict[int, Tariff] = field(default_factory=dict)
    circuits: dict[int, str] = field(default_factory=dict)
    light: dict[int, list[float]] = field(default_factory=dict)
    uses: dict[int, tuple[str, str, str, float | None]] = field(default_factory=dict)


def read_details(reading: Rows, entries: Collection[int]) -> RoomDetails:
    """Give what entries say of the room."""
    found = RoomDetails()
    for some in chunks(entries):
        where = f"WHERE entry_id IN ({','.join('?' * len(some))})"
        for row in reading.rows(
            "SELECT entry_id, lamps, watts, kind, light, amps, volts, height_mm, bought "
            f"FROM lamp_set {where}",
            some,
        ):
            found.lamps[row[0]] = lamp_set_of(row[1:])
        for row in reading.rows(
            f"SELECT entry_id, lamp_on, lamp_off FROM lamp_hours {where}", some
        ):
            found.hours[row[0]] = wall_hours_of(*row[1:])
        for row in reading.rows(f"SELECT entry_id, name, gone FROM circuit {where}", some):
            found.circuits[row[0]] = f"{row[1]} is gone" if row[2] else row[1]
        for row in reading.rows(
            f"SELECT entry_id, ppfd FROM light_spot {where} ORDER BY spot_row, spot_column", some
        ):
            found.light.setdefault(row[0], []).append(row[1])
        for row in reading.rows(
            f"SELECT entry_id, purpose, method, product, want_percent FROM solution_use {where}",
            some,
        ):
            found.uses[row[0]] = row[1:]
        others: dict[int, list[OtherHours]] = {}
        for row in reading.rows(
            f"SELECT entry_id, starts, ends, per_kwh FROM tariff_hours {where} ORDER BY position",
            some,
        ):
            hours = WallHours(row[1] % 1440, row[2])
            others.setdefault(row[0], []).append(OtherHours(hours, row[3]))
        for row in reading.rows(f"SELECT entry_id, since, per_kwh FROM tariff {where}", some):
            since = date.fromisoformat(row[1])
            found.tariffs[row[0]] = Tariff(since, row[2], tuple(others.get(row[0], ())))
    return found
