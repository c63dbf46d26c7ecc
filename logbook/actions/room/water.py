"""Water and cleaning: pH and EC of what is given, and the record of what was cleaned, how, with what."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of, numbers_of
from logbook.growing.keys import TrayNumber
from logbook.growing.measures import number_words
from logbook.growing.numbers import numbers_words
from logbook.growing.room.water import WaterReading, out_of_band
from logbook.store.reads.water import read_water
from logbook.text import Refused


def measure_water(
    book: Book, reading: WaterReading, numbers: Sequence[int] = (), place: str = "",
    at: datetime | None = None, note: str = "",
) -> Done:  # fmt: skip
    """Write a pH or EC that was measured: of the water for some trays, at a place, or in the tank."""
    if reading.ph is None and reading.ec is None:
        raise Refused("Give the pH or the EC that was measured, like pH 6.1 or EC 1.2.")
    with book.writing() as act:
        when = act.moment(at, "A water reading")
        trays = act.reading.trays(numbers) if numbers else []
        numbers = numbers_of(trays)
        spot = act.reading.places.find(place).id if place else None
        ids = [known.id for known in trays]
        entry = act.entry("measure", ids, when, note=note, place=spot)
        act.put("watering", entry, amount_ml=reading.millilitres, ph=reading.ph, ec=reading.ec)
        where = numbers_words(numbers) or place or "the room"
        notices = out_of_band(reading, [known.template for known in trays])
        return done_of(act, f"water, {where}: {water_words(reading)}", numbers, notices)


def water_words(reading: WaterReading) -> str:
    """Say what was measured: "pH 6.1, EC 1.2 mS/cm"."""
    ph = "" if reading.ph is None else f"pH {number_words(reading.ph, 2)}"
    ec = "" if reading.ec is None else f"EC {number_words(reading.ec, 2)} mS/cm"
    return ", ".join(filter(None, (ph, ec)))


@dataclass(frozen=True, slots=True)
class WaterLine:
    """One measurement as it is shown, with what is outside the bands of its trays' templates."""

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

    @property
    def where(self) -> str:
        """The trays it was for, else where it was measured."""
        return numbers_words(self.trays) or self.place or "room"


@dataclass(frozen=True, slots=True)
class WaterRecord:
    """What was measured of the water in so many days, oldest first."""

    days: int
    readings: tuple[WaterLine, ...]


def list_water(book: Book, days: int = 30) -> list[WaterLine]:
    """What was measured of the water in so many days, oldest first."""
    lines = []
    with book.reading() as reading:
        for one in read_water(reading, *lately(reading, days)):
            place, templates = reading.places.path(one.place), reading.versions(one.versions)
            marks = tuple(out_of_band(one.reading, list(templates.values())))
            lines.append(WaterLine(one.at, one.by, one.trays, place, one.reading, marks))
    return lines


def lately(reading: Reading, days: int) -> tuple[datetime, datetime]:
    """From so many days ago until a little later than now; raises Refused."""
    if not 1 <= days <= 3660:
        raise Refused(f"{days} days? Give 1 to 3660.")
    return reading.now - timedelta(days=days), reading.now + timedelta(minutes=10)
