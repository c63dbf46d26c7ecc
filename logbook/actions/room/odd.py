"""Readings that are asked about before they are written; nothing is written here."""

from collections.abc import Collection, Iterable
from datetime import datetime, timedelta
from statistics import fmean

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.air import room_or
from logbook.actions.room.lamps import shelf_named
from logbook.actions.room.light import SurveyDraft
from logbook.growing.crops.templates import CropTemplate
from logbook.growing.quantities import PPFD
from logbook.growing.room.air import AirReading
from logbook.growing.room.odd import READ, odd
from logbook.growing.room.places import Place
from logbook.growing.room.water import WaterReading
from logbook.store.reads.air import last_air
from logbook.store.reads.lamps import read_surveys
from logbook.store.reads.water import last_water

LATELY = timedelta(days=14)
"""How old a reading may be that a new one is held against."""
NEWEST = 6
"""So many of them."""


def odd_air(
    book: Book, celsius: float, humidity: float, place: str = "", at: datetime | None = None
) -> str:
    """What to ask of air that is far from the last at its place, or from what crops there want."""
    with book.reading() as reading:
        spot, when = room_or(place, reading.places), at or reading.now
        before = last_air(reading, spot.id, when - LATELY, when, NEWEST)
        crops = _crops_on(reading, reading.places.under(spot))
        return _odd(reading, AirReading(when, celsius, humidity), before, crops)


def odd_water(
    book: Book, water: WaterReading, numbers: Collection[int] = (), place: str = "",
    at: datetime | None = None,
) -> str:  # fmt: skip
    """What to ask of water that is far from the last on its trays or at its place, or as for air."""
    with book.reading() as reading:
        when = at or reading.now
        spot = reading.places.find(place) if place else None
        trays = reading.trays(numbers, live=False) if numbers else []
        ids = [known.id for known in trays]
        stands = None if spot is None else spot.id
        lately = (when - LATELY, when, NEWEST)
        before = last_water(reading, ids, stands, *lately)
        other = last_water(reading, None, None, *lately) if ids else []
        crops = [known.template for known in trays]
        if not trays:
            crops = _crops_on(reading, reading.places.under(spot or room_or("", reading.places)))
        return _odd(reading, water, before, crops, other)


def odd_survey(book: Book, draft: SurveyDraft) -> str:
    """What to ask of one or two light readings far from the last surveys of their shelf.

    Three or more have each other as neighbours (`odd_reading`).
    """
    if draft.lux_lamp or len(draft.spots) > 2:
        return ""
    with book.reading() as reading:
        shelf, when = shelf_named(draft.place, reading.places), draft.at or reading.now
        before = [
            one.even.mean
            for one in read_surveys(reading)
            if one.place == shelf.id and when - LATELY < one.at <= when
        ]
        return odd(PPFD, fmean(spot.ppfd for spot in draft.spots), before[-NEWEST:])


def _crops_on(reading: Reading, shelves: Iterable[Place]) -> list[CropTemplate]:
    there = {shelf.id for shelf in shelves}
    return [
        known.template
        for known in reading.live
        if known.state.status == "growing" and known.state.place in there
    ]


def _odd(
    reading: Reading, given: AirReading | WaterReading,
    before: Collection[AirReading | WaterReading], crops: Iterable[CropTemplate],
    other: Collection[WaterReading] = (),
) -> str:  # fmt: skip
    """What to ask; where nothing was read before nor is wished, others stand in."""
    wishes = dict.fromkeys(crop.targets for crop in crops)
    asked = []
    for name, quantity in READ.items():
        if (value := getattr(given, name, None)) is not None:
            wished = [band for each in wishes if (band := getattr(each, name)) is not None]
            here = _known(name, before)
            last = here or ([] if wished else _known(name, other))
            asked.append(odd(quantity, value, last, wished, reading.units, here=bool(here)))
    return " ".join(filter(None, asked))


def _known(name: str, readings: Iterable[AirReading | WaterReading]) -> list[float]:
    return [one for each in readings if (one := getattr(each, name)) is not None]
