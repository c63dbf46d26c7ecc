"""Air at places: writing readings, and what a stretch of them means for the crops there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.lamps import shelf_pasts
from logbook.actions.trays.done import Done
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.measures import number_words, temperature_words
from logbook.growing.room.air import AirReading, air_words
from logbook.growing.room.air_series import (
    LONGEST_HOLD,
    BandHours,
    DayAndNight,
    MouldCaution,
    band_hours,
    day_and_night,
    mould_caution,
)
from logbook.growing.room.places import Place, find_place, shelves_under
from logbook.growing.trays.stays import stays_of
from logbook.growing.wall_hours import WallHours
from logbook.store.reads.air import newest_air, read_air
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused


def room_or(place: str, places: Sequence[Place]) -> Place:
    """Give the place of this path, or the room when none is named."""
    if place:
        return find_place(place, places)
    return next(each for each in places if each.parent is None)


def write_air(
    book: Book,
    celsius: float,
    humidity: float,
    place: str = "",
    *,
    still: bool | None = None,
    at: datetime | None = None,
    note: str = "",
) -> Done:
    """Write temperature and humidity at a place, or of the room; say what they mean.

    Raises:
        Refused: no such place, or numbers that no air has.
    """
    from logbook.store.tables import AirReadingRow

    with book.writing() as act:
        when = act.moment(at, "An air reading")
        reading = AirReading(when, celsius, humidity, still)
        spot = room_or(place, act.reading.places)
        entry = act.entry("air", (), when, note=note, place=spot.id)
        act.session.add(
            AirReadingRow(
                entry_id=entry,
                place_id=spot.id,
                at=when,
                celsius=celsius,
                humidity=humidity,
                still=still,
            )
        )
        words = f"air, {spot.path}: {reading_words(reading, book)}"
    caution = air_at(book, spot.path, hours=24).caution
    return Done(words, entry, (), (caution.words,) if caution else ())


def reading_words(reading: AirReading, book: Book) -> str:
    """Say a reading and what it means: "21.4 °C, 63 %, VPD 0.94 kPa, dew point 14.1 °C"."""
    still = {True: ", still", False: ", moving", None: ""}[reading.still]
    return (
        f"{temperature_words(reading.celsius, book.units)}, {number_words(reading.humidity)} %"
        f"{still}, {air_words(reading.celsius, reading.humidity, units=book.units)}"
    )


@dataclass(frozen=True, slots=True)
class CropAir:
    """Hours that the air lay below, within and above what a crop wants; None without a wish."""

    keys: ClassVar = "crop temperature=celsius humidity words"

    crop: str
    celsius: BandHours | None
    humidity: BandHours | None

    @property
    def words(self) -> str:
        """Say the hours outside the bands."""
        parts = []
        for what, hours, low, high in (
            ("temperature", self.celsius, "too cold", "too warm"),
            ("humidity", self.humidity, "too dry", "too damp"),
        ):
            if hours is None:
                continue
            outside = [
                f"{number_words(value)} h {side}"
                for value, side in ((hours.below, low), (hours.above, high))
                if value >= 0.05
            ]
            unknown = f" ({number_words(hours.unknown)} h unknown)" if hours.unknown >= 0.5 else ""
            parts.append(f"{', '.join(outside) or f'{what} as wanted'}{unknown}")
        return f"{self.crop}: {'; '.join(parts)}"


@dataclass(frozen=True, slots=True)
class AirView:
    """Air from start to end.

    `source` is the place that was measured: the one asked for, or the nearest around it that has
    readings.
    """

    keys: ClassVar = """
        place measured_at=source from=start to=end lit=means.day dark=means.night crops
        mould_caution=caution readings
    """

    place: str
    source: str
    """The place whose readings these are."""
    start: datetime
    end: datetime
    lit: WallHours | None
    readings: tuple[AirReading, ...]
    means: DayAndNight
    crops: tuple[CropAir, ...]
    caution: MouldCaution | None

    @property
    def newest(self) -> AirReading | None:
        """The last reading."""
        return self.readings[-1] if self.readings else None


def air_at(book: Book, place: str = "", *, hours: float = 24) -> AirView:
    """Give the air at a place over the hours up to now; the room's without a place."""
    if not 1 <= hours <= 366 * 24:
        raise Refused("Show 1 hour to a year of air.")
    end = book.now() + timedelta(seconds=1)
    with book.reading() as reading:
        places = reading.places
        spot = room_or(place, places)
        crops = _crops_on(reading, spot, places)
        start = end - timedelta(hours=hours)
        source, readings = nearest_air(reading, spot, places, start, end)
        return _view(reading, spot.path, source, readings, crops, start, end)


def batch_air(book: Book, batch: int) -> AirView:
    """Give the air of a batch's life, from its sowing to its end or now, where its trays stood."""
    with book.reading() as reading:
        trays = read_trays_of_batch(reading, batch)
        if not trays:
            raise Refused(f"There is no batch {batch}.")
        known = reading.folded(trays)[0]
        deeds = read_deeds(reading, [known.stored.id])[known.stored.id]
        life = stays_of(known.template, deeds, book.now())
        if not life:
            raise Refused(f"Batch {batch} is not sown yet; there is no air of its life.")
        places = reading.places
        by_id = {place.id: place for place in places}
        readings: list[AirReading] = []
        sources: dict[str, None] = {}
        for one in life:
            spot = by_id.get(one.place or 0) or room_or("", places)
            source, some = nearest_air(reading, spot, places, one.start, one.end)
            readings += [each for each in some if not readings or each.when > readings[-1].when]
            if some:
                sources[source.path] = None
        spot = by_id.get(life[-1].place or 0) or room_or("", places)
        view = _view(
            reading, spot.path, spot, readings, [known.template], life[0].start, life[-1].end
        )
    name = f"batch {batch}, {known.template.label()}"
    return AirView(
        name,
        ", ".join(sources) or spot.path,
        view.start,
        view.end,
        view.lit,
        view.readings,
        view.means,
        view.crops,
        view.caution,
    )


def nearest_air(
    reading: Reading, spot: Place, places: Sequence[Place], start: datetime, end: datetime
) -> tuple[Place, list[AirReading]]:
    """Give the readings of a place, or of the nearest place around it that has any.

    Those of the hour before the start are among them, for a reading stands for an hour.
    """
    by_id = {place.id: place for place in places}
    here: Place | None = spot
    while here is not None:
        found = read_air(reading, here.id, start - LONGEST_HOLD, end)
        if found:
            return here, found
        here = by_id.get(here.parent or 0)
    return spot, []


def _crops_on(reading: Reading, spot: Place, places: Sequence[Place]) -> list[CropTemplate]:
    shelves = {shelf.id for shelf in shelves_under(spot, places)}
    found = {
        known.template.label(): known.template
        for known in reading.live
        if known.state.status == "growing" and known.state.place in shelves
    }
    return list(found.values())


def _view(
    reading: Reading,
    name: str,
    source: Place,
    readings: list[AirReading],
    crops: Sequence[CropTemplate],
    start: datetime,
    end: datetime,
) -> AirView:
    places = reading.places
    pasts = shelf_pasts(reading)
    spot = next((place for place in places if place.path == name), source)
    hours = [pasts[shelf.id].hours_at(end) for shelf in shelves_under(spot, places)]
    lit = next((one for one in hours if one is not None), None)
    return AirView(
        name,
        source.path,
        start,
        end,
        lit,
        tuple(reading for reading in readings if start <= reading.when < end),
        day_and_night(readings, lit, start, end, reading.zone),
        tuple(
            CropAir(
                crop.label(),
                band_hours(readings, _celsius, crop.targets.celsius, start, end)
                if crop.targets.celsius
                else None,
                band_hours(readings, _humidity, crop.targets.humidity, start, end)
                if crop.targets.humidity
                else None,
            )
            for crop in crops
            if crop.targets.celsius or crop.targets.humidity
        ),
        mould_caution(readings, start, end),
    )


def _celsius(reading: AirReading) -> float:
    return reading.celsius


def _humidity(reading: AirReading) -> float:
    return reading.humidity


def air_places(book: Book) -> list[tuple[str, AirReading]]:
    """Give every place that has readings, in walking order, with its newest."""
    with book.reading() as reading:
        newest = newest_air(reading)
        return [
            (place.path, newest[place.id])
            for place in reading.places
            if place.id in newest and not place.retired
        ]
