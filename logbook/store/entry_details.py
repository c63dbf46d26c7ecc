"""What the narrow tables hold for given entries about the room, struck ones too."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date

from logbook.growing.lamps import LampSet
from logbook.growing.tariffs import OtherHours, Tariff
from logbook.growing.wall_hours import WallHours
from logbook.store.reads_lamps import LAMPS, wall_hours_of
from logbook.store.rows import Rows


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
    of = "WHERE entry_id IN (ids)"
    for hung in reading.make_of(
        _Hung, f"SELECT l.entry_id AS entry, {LAMPS} FROM lamp_set l {of}", entries
    ):
        found.lamps[hung.entry] = hung.lamps
    for entry, on, off in reading.rows_of(
        f"SELECT entry_id, lamp_on, lamp_off FROM lamp_hours {of}", entries
    ):
        found.hours[entry] = wall_hours_of(on, off)
    for entry, name, gone in reading.rows_of(
        f"SELECT entry_id, name, gone FROM circuit {of}", entries
    ):
        found.circuits[entry] = f"{name} is gone" if gone else name
    for entry, ppfd in reading.rows_of(
        f"SELECT entry_id, ppfd FROM light_spot {of} ORDER BY spot_row, spot_column", entries
    ):
        found.light.setdefault(entry, []).append(ppfd)
    for entry, *use in reading.rows_of(
        f"SELECT entry_id, purpose, method, product, want_percent FROM solution_use {of}", entries
    ):
        found.uses[entry] = tuple(use)
    others: dict[int, list[OtherHours]] = {}
    for entry, starts, ends, per_kwh in reading.rows_of(
        f"SELECT entry_id, starts, ends, per_kwh FROM tariff_hours {of} ORDER BY position", entries
    ):
        others.setdefault(entry, []).append(OtherHours(WallHours(starts % 1440, ends), per_kwh))
    for entry, since, per_kwh in reading.rows_of(
        f"SELECT entry_id, since, per_kwh FROM tariff {of}", entries
    ):
        mine = tuple(others.get(entry, ()))
        found.tariffs[entry] = Tariff(date.fromisoformat(since), per_kwh, mine)
    return found


@dataclass(frozen=True, slots=True)
class _Hung:
    entry: int
    lamps: LampSet
