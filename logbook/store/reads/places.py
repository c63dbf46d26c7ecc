"""Reading the places of the room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from logbook.growing.room.places import Place, PlaceKind
from logbook.store.rows import Rows


@dataclass(frozen=True, slots=True)
class _Row:
    id: int
    parent_id: int | None
    kind: str
    name: str
    position: int
    slots: int
    lamp_on: int | None
    lamp_off: int | None
    retired: bool


def read_places(reading: Rows) -> list[Place]:
    """All places in walking order, retired ones too."""
    rows = reading.make(
        _Row,
        "SELECT id, parent_id, kind, name, position, slots, lamp_on, lamp_off, retired FROM place",
    )
    known = {row.id: row for row in rows}
    made: dict[int, Place] = {}
    return sorted((_place(row, known, made) for row in rows), key=lambda place: place.walk)


def _place(row: _Row, known: dict[int, _Row], made: dict[int, Place]) -> Place:
    """Make a place, and those above it that are not made yet."""
    if row.id in made:
        return made[row.id]
    above = None if row.parent_id is None else _place(known[row.parent_id], known, made)
    made[row.id] = Place(
        id=row.id,
        kind=cast("PlaceKind", row.kind if row.kind in ("room", "rack") else "shelf"),
        name=row.name,
        path=row.name if above is None or above.kind == "room" else f"{above.path}/{row.name}",
        walk=(*(above.walk if above else ()), row.position, row.id),
        parent=row.parent_id,
        slots=row.slots,
        lamp_on=row.lamp_on,
        lamp_off=row.lamp_off,
        retired=row.retired or (above is not None and above.retired),
    )
    return made[row.id]
