"""Air at places: writing readings, and what a stretch of them means for the crops there."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from operator import attrgetter
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.lamps import shelf_pasts
from logbook.actions.trays.done import Done, done_of
from logbook.growing.bands import Band
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.measures import number_words
from logbook.growing.room import air as airs
from logbook.growing.room.places import Place, Places
from logbook.growing.trays.stays import stays_of
from logbook.growing.wall_hours import WallHours
from logbook.store.reads.air import newest_air, read_air
from logbook.store.reads.deeds import read_deeds
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused


def room_or(place: str, places: Places) -> Place:
    """The place of this path, or the room when none is named."""
    return places.find(place) if place else next(each for each in places if each.parent is None)


def write_air(
    book: Book, celsius: float, humidity: float, place: str = "", *, still: bool | None = None,
    at: datetime | None = None, note: str = "",
) -> Done:  # fmt: skip
    """Write temperature (°C) and humidity (%) at a place, or of the room; say what they mean."""
    with book.writing() as act:
        when = act.moment(at, "An air reading")
        reading = airs.AirReading(when, celsius, humidity, still)
        spot = room_or(place, act.reading.places)
        entry = act.entry("air", (), when, note=note, place=spot.id)
        act.put("air_reading", entry, place_id=spot.id, **asdict(reading))
        done = done_of(act, f"air, {spot.path}: {reading.words(book.units)}", ())
    caution = air_at(book, spot.path, hours=24).caution
    return replace(done, notices=(caution.words,) if caution else ())


@dataclass(frozen=True, slots=True)
class CropAir:
    """Hours that the air lay below, within and above what a crop wants; None without a wish."""

    keys: ClassVar = "crop temperature=celsius humidity words"

    crop: str
    celsius: airs.BandHours | None
    humidity: airs.BandHours | None

    def _outside(self) -> list[tuple[str, airs.BandHours, list[str]]]:
        wished = (
            ("temperature", self.celsius, ("too cold", "too warm")),
            ("humidity", self.humidity, ("too dry", "too damp")),
        )
        return [(what, hours, hours.outside(*sides)) for what, hours, sides in wished if hours]

    @property
    def as_wanted(self) -> bool:
        """Whether it never lay outside the bands."""
        return not any(outside for _, _, outside in self._outside())

    @property
    def words(self) -> str:
        """Say the hours outside the bands."""
        parts = []
        for what, hours, outside in self._outside():
            unknown = f" ({number_words(hours.unknown)} h unknown)" if hours.unknown >= 0.5 else ""
            parts.append(f"{', '.join(outside) or f'{what} in range'}{unknown}")
        return f"{self.crop}: {'; '.join(parts)}"


@dataclass(frozen=True, slots=True)
class AirView:
    """Air from start to end, read at `source`: the place, or the nearest around it that is read."""

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
    readings: tuple[airs.AirReading, ...]
    means: airs.DayAndNight
    crops: tuple[CropAir, ...]
    caution: airs.MouldCaution | None
    celsius_limits: tuple[float, ...] = ()
    """What no crop wants it to be over or under."""
    humidity_limits: tuple[float, ...] = ()

    @property
    def newest(self) -> airs.AirReading | None:
        """The last reading."""
        return self.readings[-1] if self.readings else None


def air_at(book: Book, place: str = "", *, hours: float = 24) -> AirView:
    """The air at a place over the hours up to now; the room's by default."""
    if not 1 <= hours <= 366 * 24:
        raise Refused("Show 1 hour to a year of air.")
    with book.reading() as reading:
        end = reading.now + timedelta(seconds=1)
        start = end - timedelta(hours=hours)
        spot = room_or(place, reading.places)
        shelves = {shelf.id for shelf in reading.places.under(spot)}
        crops = {
            known.template.label(): known.template
            for known in reading.live
            if known.state.status == "growing" and known.state.place in shelves
        }
        source, readings = nearest_air(reading, spot, start, end)
        return _view(reading, spot, source, readings, crops.values(), start, end)


def batch_air(book: Book, batch: int) -> AirView:
    """The air of a batch's life, from its sowing to its end or now, where its trays stood."""
    with book.reading() as reading:
        trays = read_trays_of_batch(reading, batch)
        if not trays:
            raise Refused(f"There is no batch {batch}.")
        known = reading.folded(trays)[0]
        deeds = read_deeds(reading, [known.id])[known.id]
        life = stays_of(known.template, deeds, reading.now)
        if not life:
            raise Refused(f"Batch {batch} is not sown yet, so there is no air to show.")
        room = room_or("", reading.places)
        spots = [reading.places.get(one.place) or room for one in life]
        readings: list[airs.AirReading] = []
        sources: dict[str, None] = {}
        for spot, one in zip(spots, life, strict=True):
            source, some = nearest_air(reading, spot, one.start, one.end)
            readings += [each for each in some if not readings or each.at > readings[-1].at]
            if some:
                sources[source.path] = None
        start, end, last = life[0].start, life[-1].end, spots[-1]
        view = _view(reading, last, last, readings, [known.template], start, end)
    name = f"batch {batch}, {known.template.label()}"
    return replace(view, place=name, source=", ".join(sources) or last.path)


def nearest_air(
    reading: Reading, spot: Place, start: datetime, end: datetime
) -> tuple[Place, list[airs.AirReading]]:
    """The readings of a place or the nearest around it with any, from an hour before the start."""
    here: Place | None = spot
    while here is not None:
        found = read_air(reading, here.id, start - airs.LONGEST_HOLD, end)
        if found:
            return here, found
        here = reading.places.get(here.parent)
    return spot, []


def _view(
    reading: Reading, spot: Place, source: Place, readings: Sequence[airs.AirReading],
    crops: Iterable[CropTemplate], start: datetime, end: datetime,
) -> AirView:  # fmt: skip
    pasts = shelf_pasts(reading)
    hours = [pasts[shelf.id].hours_at(end) for shelf in reading.places.under(spot)]
    lit = next((one for one in hours if one is not None), None)

    def within(
        what: Callable[[airs.AirReading], float], band: Band | None
    ) -> airs.BandHours | None:
        return airs.band_hours(readings, what, band, start, end) if band else None

    grown = list(crops)
    outside = (
        CropAir(
            crop.label(),
            within(attrgetter("celsius"), crop.targets.celsius),
            within(attrgetter("humidity"), crop.targets.humidity),
        )
        for crop in grown
        if crop.targets.celsius or crop.targets.humidity
    )
    shown = tuple(each for each in readings if start <= each.at < end)
    means = airs.day_and_night(readings, lit, start, end, reading.hours_of(source.id).zone)
    caution = airs.mould_caution(readings, start, end)
    return AirView(spot.path, source.path, start, end, lit, shown, means, tuple(outside), caution,
        _limits(each.targets.celsius for each in grown),
        _limits(each.targets.humidity for each in grown),
    )  # fmt: skip


def _limits(bands: Iterable[Band | None]) -> tuple[float, ...]:
    """The highest of the low ends and the lowest of the high ones, as far as there are any."""
    known = [band for band in bands if band is not None]
    lows = [band.low for band in known if band.low is not None]
    highs = [band.high for band in known if band.high is not None]
    return (*((max(lows),) if lows else ()), *((min(highs),) if highs else ()))


def air_places(book: Book) -> list[tuple[str, airs.AirReading]]:
    """The paths of the places that have readings, in walking order, with the newest of each."""
    with book.reading() as reading:
        newest = newest_air(reading)
        return [
            (place.path, newest[place.id])
            for place in reading.places
            if place.id in newest and not place.retired
        ]
