"""Lamp sets on shelves, prices and circuits: writing them; a shelf's past, a circuit's load."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass, fields, replace
from datetime import datetime
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.dark import dark_notices
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.measures import number_words
from logbook.growing.room.places import Place, Places
from logbook.growing.room.power import Circuit, CircuitLoad, LampSet, circuit_amps
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.room.tariffs import Tariff
from logbook.store.reads import lamps as reads
from logbook.store.rows import grouped
from logbook.text import Refused, clean_name, fold, listed
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
    with book.writing() as act:
        when = act.moment(at, "Hanging lamps")
        reading = act.reading
        shelves = reading.places.under(reading.places.find(place))
        if not shelves:
            raise Refused(f"There is no shelf in {place}.")
        hanging = {one.place: one.lamps for one in reads.read_lamp_sets(reading)}
        if lamps.lamps == 0:
            shelves = [each for each in shelves if hanging.get(each.id, lamps).lamps]
            if not shelves:
                raise Refused(f"No lamps hang over {place}.")
        for shelf in shelves:
            entry = act.entry("lamps", (), when, place=shelf.id)
            act.put("lamp_set", entry, **asdict(lamps))
        paths = listed([shelf.path for shelf in shelves])
        notices = [
            f"{shelf.path} has no lamp hours yet: {Way.CHANGE_PLACE} gives it some."
            for shelf in shelves
            if lamps.lamps and not shelf.lit
        ]
        after, hung = act.reading, {shelf.id for shelf in shelves}
        there = [each for each in after.live if each.state.place in hung]
        notices = [*notices, *dark_notices(after, there)]
        return done_of(act, f"{paths}: {lamps.words(book.units)}", (), notices)


def set_tariff(book: Book, tariff: Tariff) -> Done:
    """Write a price per kWh from a day on; a second one for the same day takes its place."""
    with book.writing() as act:
        again = any(one.since == tariff.since for one in reads.read_tariffs(act.reading))
        entry = act.entry("tariff", ())
        act.put("tariff", entry, since=tariff.since, per_kwh=f"{tariff.per_kwh:f}")
        others = (
            {"position": position, "per_kwh": f"{each.per_kwh:f}", "starts": on, "ends": off}
            for position, each in enumerate(tariff.others)
            for on, off in ((each.hours.on, each.hours.off),)
        )
        act.put("tariff_hours", entry, others)
        money = act.reading.about.money
        notices = [f"It replaces the one from {tariff.since}."] if again else []
        notices += filter(None, (money.unset_words,))
        return done_of(act, f"tariff: {replace(tariff, money=money).words}", (), notices)


def list_tariffs(book: Book) -> list[Tariff]:
    """The tariffs by the day from which they hold."""
    with book.reading() as reading:
        return reads.read_tariffs(reading)


def above(reading: Reading, shelf: Place) -> set[int]:
    """The ids of a shelf and of what it is in; what is in no room counts to the first."""
    homeless = reading.places.by_id[shelf.top].kind != "room"
    return {*shelf.walk[1::2], *((reading.about.room,) if homeless else ())}


def shelf_pasts(reading: Reading) -> dict[int, ShelfPast]:
    """The past of every shelf (place id): hours, lamps, light, and when it had no power."""
    before = reads.first_hours(reading)
    hours = grouped((one.place, (one.at, one.hours)) for one in reads.read_lamp_hours(reading))
    lamps = grouped((one.place, (one.at, one.lamps)) for one in reads.read_lamp_sets(reading))
    ppfd = grouped((one.place, (one.at, one.even.mean)) for one in reads.read_surveys(reading))
    outages = reads.read_outages(reading)
    return {
        shelf.id: ShelfPast(
            reading.hours_of(shelf.id).zone,
            reads.wall_hours_of(*before.get(shelf.id, (shelf.lamp_on, shelf.lamp_off))),
            tuple(hours.get(shelf.id, ())),
            tuple(lamps.get(shelf.id, ())),
            tuple(ppfd.get(shelf.id, ())),
            tuple((one.at, one.until) for one in outages if one.place in above(reading, shelf)),
        )
        for shelf in reading.places
        if shelf.kind == "shelf"
    }


@dataclass(frozen=True, slots=True)
class CircuitDraft(Circuit):
    """A circuit with the paths of the places whose lamps hang on it."""

    places: tuple[str, ...] = ()


def set_circuit(book: Book, draft: CircuitDraft) -> Done:
    """Write a circuit, or an old one anew by its name; shelves leave the circuit they were on."""
    name = clean_name(draft.name, "name of the circuit")
    draft.load()
    with book.writing() as act:
        places = act.reading.places
        shelves = {
            shelf.id: shelf.path
            for path in draft.places
            for shelf in places.under(places.find(path))
        }
        moved = []
        for old in reads.read_circuits(act.reading):
            left = tuple(shelf for shelf in old.shelves if shelf not in shelves)
            if fold(old.name) != fold(name) and left != old.shelves:
                _write_circuit(act, old, left)
                gone = [shelves[shelf] for shelf in old.shelves if shelf in shelves]
                moved.append(f"{listed(gone)}: no longer on {old.name}.")
        _write_circuit(act, replace(draft, name=name), tuple(shelves))
        on = listed(list(shelves.values())) or "no shelf yet"
        amps, volts = number_words(draft.breaker_amps), number_words(draft.volts)
        view = next(one for one in circuit_views(act.reading) if fold(one.name) == fold(name))
        notices = moved if view.load.within else [*moved, view.load.words]
        return done_of(act, f"circuit {name}: {amps} A at {volts} V, {on}", (), notices)


def remove_circuit(book: Book, name: str) -> Done:
    """Write that there is no such circuit any more."""
    with book.writing() as act:
        known = reads.read_circuits(act.reading)
        found = next((one for one in known if fold(one.name) == fold(name)), None)
        if found is None:
            names = listed([one.name for one in known]) or "none"
            raise Refused(f'There is no circuit "{name[:40]}"; the book has {names}.')
        _write_circuit(act, found, (), gone=True)
        left = listed([act.reading.places.path(shelf) for shelf in found.shelves])
        notices = [f"On no circuit now: {left}."] if left else []
        return done_of(act, f"circuit {found.name} is removed", (), notices)


def _write_circuit(
    act: Act, circuit: Circuit, shelves: Sequence[int], *, gone: bool = False
) -> None:
    entry = act.entry("circuit", ())
    said = {each.name: getattr(circuit, each.name) for each in fields(Circuit)}
    act.put("circuit", entry, name_key=fold(circuit.name), gone=gone, **said)
    act.put("circuit_shelf", entry, ({"place_id": shelf} for shelf in shelves))


@dataclass(frozen=True, slots=True)
class CircuitView:
    """A circuit with its load; `dark` shelves have no known lamps, `guessed` ones no amperes."""

    keys: ClassVar = """
        circuit=name shelves amps=load.amps breaker_amps=load.breaker_amps volts=load.volts
        continuous_limit_amps=load.limit_amps share_percent=load.share_percent
        within=load.within amps_guessed_for=guessed words=load.words other_amps dark notices
    """

    name: str
    shelves: tuple[str, ...]
    other_amps: float
    load: CircuitLoad
    guessed: tuple[str, ...]
    """Shelves whose lamps' amperes are reckoned from their watts."""
    dark: tuple[str, ...]
    """Shelves whose lamps are not known."""

    @property
    def notices(self) -> tuple[str, ...]:
        """What the sum is based on."""
        guessed = (
            f"The amps of {listed(self.guessed, 3)} are not known: watts ÷ volts are used, the "
            "least that lamps can draw. Check the label."
        )
        dark = f"No lamps are known for {listed(self.dark, 3)}."
        return (guessed,) * bool(self.guessed) + (dark,) * bool(self.dark)


def list_circuits(book: Book) -> list[CircuitView]:
    """The circuits with their loads, by name."""
    with book.reading() as reading:
        return circuit_views(reading)


def circuit_views(reading: Reading) -> list[CircuitView]:
    """The circuits with the sum of their amperes, the shelves in walking order."""
    lamps = {one.place: one.lamps for one in reads.read_lamp_sets(reading)}
    views = []
    for circuit in reads.read_circuits(reading):
        shelves = [place for place in reading.places if place.id in circuit.shelves]
        paths = tuple(shelf.path for shelf in shelves)
        drawn = {
            shelf.path: circuit_amps(lamps[shelf.id], circuit.volts)
            for shelf in shelves
            if shelf.id in lamps
        }
        load = circuit.load([amps for amps, _ in drawn.values()])
        guessed = tuple(path for path, (amps, said) in drawn.items() if amps > 0 and not said)
        dark = tuple(path for path in paths if path not in drawn)
        views.append(CircuitView(circuit.name, paths, circuit.other_amps, load, guessed, dark))
    return views
