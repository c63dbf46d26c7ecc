"""Water: pH and EC of what is given, measured with a watering or by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.trays.done import Done
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.keys import TrayNumber
from logbook.growing.measures import number_words
from logbook.growing.numbers import numbers_words
from logbook.growing.room.water import WaterReading, out_of_band
from logbook.store.reads.water import read_water
from logbook.text import Refused

KIND = "measure"
"""The kind of an entry that measured water without a watering."""


def measure_water(
    book: Book,
    reading: WaterReading,
    numbers: Sequence[int] = (),
    place: str = "",
    at: datetime | None = None,
    note: str = "",
) -> Done:
    """Write a pH or EC that was measured: of the water for some trays, at a place, or in the tank.

    Raises:
        Refused: nothing was measured, or no such tray or place.
    """
    from logbook.store.tables import WateringRow

    if reading.ph is None and reading.ec is None:
        raise Refused("Give the pH or the EC that was measured, like pH 6.1 or EC 1.2.")
    with book.writing() as act:
        when = act.moment(at, "A water reading")
        trays = act.reading.trays(numbers) if numbers else []
        spot = act.reading.places.find(place).id if place else None
        ids = [known.stored.id for known in trays]
        entry = act.entry(KIND, ids, when, note=note, place=spot)
        act.session.add(
            WateringRow(entry_id=entry, amount_ml=reading.millilitres, ph=reading.ph, ec=reading.ec)
        )
        where = numbers_words(numbers) or place or "the room"
        notices = out_of_band(reading, [known.template for known in trays])
        return Done(
            f"water, {where}: {water_words(reading)}", entry, tuple(numbers), tuple(notices)
        )


def water_words(reading: WaterReading) -> str:
    """Say what was measured: "pH 6.1, EC 1.2 mS/cm"."""
    parts = []
    if reading.ph is not None:
        parts.append(f"pH {number_words(reading.ph, 2)}")
    if reading.ec is not None:
        parts.append(f"EC {number_words(reading.ec, 2)} mS/cm")
    return ", ".join(parts)


@dataclass(frozen=True, slots=True)
class WaterLine:
    """One measurement as it is shown, with what lies outside the bands of its trays' templates."""

    keys: ClassVar = """
        at by trays place ph=reading.ph ec_ms_cm=reading.ec
        millilitres_per_tray=reading.millilitres water_ml=reading.millilitres
        out_of_band=marks
    """

    at: datetime
    by: str
    trays: tuple[TrayNumber, ...]
    place: str
    reading: WaterReading
    marks: tuple[str, ...]
    """What is outside of what the crop wants."""


@dataclass(frozen=True, slots=True)
class WaterRecord:
    """What was measured of the water in so many days, oldest first."""

    days: int
    readings: tuple[WaterLine, ...]


def list_water(book: Book, days: int = 30) -> list[WaterLine]:
    """Give what was measured of the water in so many days, oldest first."""
    if not 1 <= days <= 3660:
        raise Refused(f"{days} days? Give 1 to 3660.")
    now = book.now()
    with book.reading() as reading:
        found = read_water(reading, now - timedelta(days=days), now + timedelta(minutes=10))
        versions = reading.versions({each for one in found for each in one.versions})
        paths = {place.id: place.path for place in reading.places}

    def templates(ids: Sequence[int]) -> list[CropTemplate]:
        return [versions[each] for each in ids]

    return [
        WaterLine(
            one.at,
            one.by,
            one.trays,
            paths.get(one.place or 0, ""),
            one.reading,
            tuple(out_of_band(one.reading, templates(one.versions))),
        )
        for one in found
    ]
