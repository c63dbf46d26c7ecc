"""Reading what entries say beside their note: what looks saw, and where trays were put."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, fields

from logbook.growing.trays.looks import Look
from logbook.store.rows import Rows


@dataclass(frozen=True, slots=True)
class StoredLook:
    """What an entry saw."""

    entry_id: int
    look: Look


_LOOK = ", ".join(f'{field.name} AS "look.{field.name}"' for field in fields(Look))


def read_looks(reading: Rows, entries: Collection[int]) -> dict[int, Look]:
    """What the looks of entries saw, by entry id."""
    sql = f"SELECT entry_id, {_LOOK} FROM look WHERE entry_id IN (ids)"
    return {each.entry_id: each.look for each in reading.make_of(StoredLook, sql, entries)}


@dataclass(frozen=True, slots=True)
class StoredSpot:
    """Where an entry put a tray; None for nowhere and for no slot."""

    entry_id: int
    tray_id: int
    place_id: int | None
    slot: int | None


def read_spots(reading: Rows, entries: Collection[int]) -> dict[int, list[StoredSpot]]:
    """Where entries put trays, by entry id."""
    found: dict[int, list[StoredSpot]] = {}
    for spot in reading.make_of(
        StoredSpot,
        "SELECT entry_id, tray_id, place_id, slot FROM tray_place WHERE entry_id IN (ids)",
        entries,
    ):
        found.setdefault(spot.entry_id, []).append(spot)
    return found
