"""Reading the places of the room."""

from __future__ import annotations

from functools import cache

from logbook.growing.room.places import Place
from logbook.store.rows import Rows


def read_places(reading: Rows) -> list[Place]:
    """All places in walking order, retired ones too."""
    rows = reading.rows(
        "SELECT id, parent_id, kind, name, position, slots, lamp_on, lamp_off, retired FROM place"
    )
    known = {row[0]: row for row in rows}

    @cache
    def made(place: int) -> Place:
        _, parent, kind, name, position, slots, lamp_on, lamp_off, retired = known[place]
        above = None if parent is None else made(parent)
        return Place(
            id=place,
            kind=kind if kind in ("room", "rack") else "shelf",
            name=name,
            path=name if above is None or above.kind == "room" else f"{above.path}/{name}",
            walk=(*(above.walk if above else ()), position, place),
            parent=parent,
            slots=slots,
            lamp_on=lamp_on,
            lamp_off=lamp_off,
            retired=bool(retired) or (above is not None and above.retired),
        )

    return sorted(map(made, known), key=lambda place: place.walk)
