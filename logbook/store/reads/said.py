"""Reading what entries say beside their note: what looks saw, and where trays were put."""

from collections.abc import Collection
from dataclasses import dataclass, fields

from logbook.growing.trays.looks import Look
from logbook.store.rows import Rows, grouped

_LOOK = ", ".join(field.name for field in fields(Look))


def read_looks(reading: Rows, entries: Collection[int]) -> dict[int, Look]:
    """What the looks of entries saw, by entry id."""
    sql = f"SELECT entry_id, {_LOOK} FROM look WHERE entry_id IN (ids)"
    return reading.make_by(Look, sql, entries)


@dataclass(frozen=True, slots=True)
class StoredSpot:
    """Where an entry put a tray; None for nowhere and for no slot."""

    entry_id: int
    tray_id: int
    place_id: int | None
    slot: int | None


def read_spots(reading: Rows, entries: Collection[int]) -> dict[int, list[StoredSpot]]:
    """Where entries put trays, by entry id."""
    sql = (
        "SELECT entry_id, tray_id, place_id, slot FROM tray_place "
        "WHERE entry_id IN (ids) ORDER BY entry_id, tray_id"
    )
    spots = reading.make_of(StoredSpot, sql, entries)
    return grouped((spot.entry_id, spot) for spot in spots)


@dataclass(frozen=True, slots=True)
class StoredWeight:
    """What an entry weighed of a tray; `shared` where it was weighed together with others."""

    entry_id: int
    tray_id: int
    grams: float
    part: bool
    shared: bool
    keep: bool
    lot_id: int | None = None
    lot: str | None = None
    """The code that its pack lot was named by."""


def read_weights(reading: Rows, entries: Collection[int]) -> dict[int, list[StoredWeight]]:
    """The weights of entries, by entry id."""
    sql = (
        "SELECT w.entry_id, tray_id, grams, part, shared, keep, w.lot_id, p.code AS lot FROM weight w "
        "LEFT JOIN pack_lot p ON p.entry_id = w.lot_id WHERE w.entry_id IN (ids) "
        "ORDER BY w.entry_id, w.tray_id"
    )
    weights = reading.make_of(StoredWeight, sql, entries)
    return grouped((weight.entry_id, weight) for weight in weights)
