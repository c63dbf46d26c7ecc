"""Lamp sets on shelves and tariffs: writing them, and reading a shelf's past."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date, datetime

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.growing.room.places import Place, Places
from logbook.growing.room.power import LampSet
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.room.tariffs import Tariff
from logbook.store.reads.lamps import (
    first_hours,
    read_lamp_hours,
    read_lamp_sets,
    read_tariffs,
    wall_hours_of,
)
from logbook.store.reads.light import read_surveys
from logbook.store.rows import grouped
from logbook.text import Refused, listed
from logbook.ways import Way


def shelf_named(path: str, places: Places) -> Place:
    """The shelf of a path; raises Refused when it names a room or rack."""
    place = places.find(path)
    if place.kind != "shelf":
        shelves = [shelf.path for shelf in places.under(place)]
        raise Refused(f"{place.path} is a {place.kind}; write which shelf: {listed(shelves)}.")
    return place


def hang_lamps(book: Book, place: str, lamps: LampSet, at: datetime | None = None) -> Done:
    """Write which lamps hang over the shelves of a place, from a moment on; 0 lamps take them off."""
    from logbook.store.tables import LampSetRow

    with book.writing() as act:
        when = act.moment(at, "Hanging lamps")
        reading = act.reading
        shelves = reading.places.under(reading.places.find(place))
        if not shelves:
            raise Refused(f"There is no shelf in {place}.")
        hanging = {one.place: one.lamps for one in read_lamp_sets(reading)}
        if lamps.lamps == 0:
            shelves = [each for each in shelves if hanging.get(each.id, lamps).lamps]
            if not shelves:
                raise Refused(f"No lamps hang over {place}.")
        for shelf in shelves:
            entry = act.entry("lamps", (), when, place=shelf.id)
            act.session.add(LampSetRow(entry_id=entry, **asdict(lamps)))
        paths = listed([shelf.path for shelf in shelves])
        notices = [
            f"{shelf.path} has no lamp hours yet: {Way.CHANGE_PLACE} gives it some."
            for shelf in shelves
            if lamps.lamps and not shelf.lit
        ]
        return done_of(act, f"{paths}: {lamps.words(book.units)}", (), notices)


def set_tariff(book: Book, tariff: Tariff) -> Done:
    """Write a price per kWh from a day on; a second one for the same day takes its place."""
    from logbook.store.tables import TariffHoursRow, TariffRow

    with book.writing() as act:
        again = any(one.since == tariff.since for one in read_tariffs(act.reading))
        entry = act.entry("tariff", ())
        act.session.add(TariffRow(entry_id=entry, since=tariff.since, per_kwh=tariff.per_kwh))
        act.session.flush()
        act.session.add_all(
            TariffHoursRow(
                entry_id=entry, position=position, per_kwh=other.per_kwh,
                starts=other.hours.on, ends=other.hours.off,
            )
            for position, other in enumerate(tariff.others)
        )  # fmt: skip
        notice = f"It takes the place of the one that held from {tariff.since}."
        return done_of(act, f"tariff: {tariff.words}", (), [notice] if again else [])


def list_tariffs(book: Book) -> list[Tariff]:
    """The tariffs by the day from which they hold."""
    with book.reading() as reading:
        return read_tariffs(reading)


def price_now(tariffs: Sequence[Tariff], day: date) -> Tariff | None:
    """The tariff that holds on a day; `tariffs` by their first day."""
    return next((tariff for tariff in reversed(tariffs) if tariff.since <= day), None)


@dataclass(frozen=True, slots=True)
class Tariffs:
    """The prices of a kWh, oldest first."""

    tariffs: tuple[Tariff, ...]


def shelf_pasts(reading: Reading) -> dict[int, ShelfPast]:
    """The past of every shelf (place id): hours, lamps and light."""
    before = first_hours(reading)
    hours = grouped((one.place, (one.at, one.hours)) for one in read_lamp_hours(reading))
    lamps = grouped((one.place, (one.at, one.lamps)) for one in read_lamp_sets(reading))
    ppfd = grouped((one.place, (one.at, one.even.mean)) for one in read_surveys(reading))
    return {
        shelf.id: ShelfPast(
            reading.hours_of(shelf.id).zone,
            wall_hours_of(*before.get(shelf.id, (shelf.lamp_on, shelf.lamp_off))),
            tuple(hours.get(shelf.id, ())),
            tuple(lamps.get(shelf.id, ())),
            tuple(ppfd.get(shelf.id, ())),
        )
        for shelf in reading.places
        if shelf.kind == "shelf"
    }
