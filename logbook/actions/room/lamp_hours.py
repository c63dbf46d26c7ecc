"""The lamp hours of shelves: the place's own are those of now, as its entries say."""

from __future__ import annotations

from sqlmodel import Session

from logbook.actions.reading import Reading
from logbook.store.tables import PlaceRow


def settle_hours(session: Session, reading: Reading) -> None:
    """Set every shelf's own hours to what its standing entries say; struck ones count no more."""
    from logbook.store.reads.lamps import first_hours, last_hours

    for place, hours in {**first_hours(reading), **last_hours(reading)}.items():
        row = session.get_one(PlaceRow, place)
        if (row.lamp_on, row.lamp_off) != hours:
            row.lamp_on, row.lamp_off = hours
            session.add(row)
