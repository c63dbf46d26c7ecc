"""Lamp hours over time: writing a change as an entry, and keeping the place's own hours in step."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from logbook.actions.reading import Reading
from logbook.store.tables import LampHoursRow, PlaceRow

if TYPE_CHECKING:
    from logbook.actions.writing import Act

Minutes = tuple[int | None, int | None]


def write_hours(
    act: Act, place: int, was: Minutes, hours: Minutes, at: datetime | None = None
) -> int:
    """Write that a shelf (place id) has these lamp hours from a moment on; give the entry's id."""
    entry = act.entry("hours", (), at, place=place)
    act.session.add(
        LampHoursRow(
            entry_id=entry, lamp_on=hours[0], lamp_off=hours[1], was_on=was[0], was_off=was[1]
        )
    )
    return entry


def settle_hours(act: Act) -> None:
    """Set every shelf's own hours to what its standing entries say; struck ones count no more."""
    for place, hours in standing_hours(act.reading).items():
        row = act.session.get_one(PlaceRow, place)
        if (row.lamp_on, row.lamp_off) != hours:
            row.lamp_on, row.lamp_off = hours
            act.session.add(row)


def standing_hours(reading: Reading) -> dict[int, Minutes]:
    """Give the hours that hold now on each shelf that ever changed them, as its entries say."""
    from logbook.store.reads_lamps import first_hours, last_hours

    return {**first_hours(reading), **last_hours(reading)}
