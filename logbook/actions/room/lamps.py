"""Lamp sets on shelves, circuits and tariffs: writing them, and reading a shelf's past."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done
from logbook.growing.measures import number_words
from logbook.growing.room.circuits import CircuitLoad, circuit_load
from logbook.growing.room.lamps import LampSet, circuit_amps
from logbook.growing.room.places import Place, find_place, shelves_under
from logbook.growing.room.shelf_past import ShelfPast
from logbook.growing.room.spots import uniformity
from logbook.growing.room.tariffs import Tariff
from logbook.store.reads.lamps import (
    StoredCircuit,
    first_hours,
    read_circuits,
    read_lamp_hours,
    read_lamp_sets,
    read_tariffs,
    wall_hours_of,
)
from logbook.store.reads.light import read_surveys
from logbook.text import Refused, clean_name, fold, listed
from logbook.ways import Way

if TYPE_CHECKING:
    from logbook.actions.writing import Act


def shelf_named(path: str, places: Sequence[Place]) -> Place:
    """Find a shelf; raise Refused when the path names a room or rack."""
    place = find_place(path, places)
    if place.kind != "shelf":
        shelves = [shelf.path for shelf in shelves_under(place, places)]
        raise Refused(f"{place.path} is a {place.kind}; write which shelf: {listed(shelves)}.")
    return place


def hang_lamps(book: Book, place: str, lamps: LampSet, at: datetime | None = None) -> Done:
    """Write which lamps hang over the shelves of a place, from a moment on; 0 lamps take them off.

    Raises:
        Refused: no such place, no shelf in it, or lamps taken off where none hang.
    """
    from logbook.store.tables import LampSetRow

    with book.writing() as act:
        when = act.moment(at, "Hanging lamps")
        places = act.reading.places
        shelves = shelves_under(find_place(place, places), places)
        if not shelves:
            raise Refused(f"There is no shelf in {place}.")
        hanging = {one.place: one.lamps for one in read_lamp_sets(act.reading)}
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
        assert act.act_id is not None  # noqa: S101 - a shelf was written
        return Done(f"{paths}: {lamps.words(book.units)}", act.act_id, (), tuple(notices))


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
                entry_id=entry,
                position=position,
                starts=other.hours.on,
                ends=other.hours.off,
                per_kwh=other.per_kwh,
            )
            for position, other in enumerate(tariff.others)
        )
        words = f"tariff: {tariff.words}"
        notices = (
            (f"It takes the place of the one that held from {tariff.since}.",) if again else ()
        )
        return Done(words, entry, (), notices)


def list_tariffs(book: Book) -> list[Tariff]:
    """Give the tariffs by the day from which they hold."""
    with book.reading() as reading:
        return read_tariffs(reading)


def price_now(tariffs: Sequence[Tariff], day: date) -> Tariff | None:
    """Give the tariff that holds on a day."""
    holding = [tariff for tariff in tariffs if tariff.since <= day]
    return holding[-1] if holding else None


@dataclass(frozen=True, slots=True)
class CircuitDraft:
    """A circuit as it is said: its breaker, and the places whose lamps hang on it.

    `other_amps` is what else it carries for hours: fans, pumps, heaters.
    """

    name: str
    breaker_amps: float
    volts: float
    places: tuple[str, ...] = ()
    share_percent: float = 80.0
    other_amps: float = 0.0


def set_circuit(book: Book, draft: CircuitDraft) -> Done:
    """Write a circuit, or say an old one anew under its name.

    A shelf hangs on one circuit: it leaves the one on which it was.

    Raises:
        Refused: impossible numbers, or no such place.
    """
    name = clean_name(draft.name, "name of the circuit")
    load = circuit_load(
        [draft.other_amps], draft.breaker_amps, draft.volts, draft.share_percent / 100
    )
    with book.writing() as act:
        places = act.reading.places
        shelves = {
            shelf.id: shelf.path
            for path in draft.places
            for shelf in shelves_under(find_place(path, places), places)
        }
        moved = []
        for old in read_circuits(act.reading):
            left = tuple(shelf for shelf in old.shelves if shelf not in shelves)
            if fold(old.name) != fold(name) and left != old.shelves:
                _write_circuit(act, old, left)
                gone = [shelves[shelf] for shelf in old.shelves if shelf in shelves]
                moved.append(f"{listed(gone)}: no longer on {old.name}.")
        fresh = StoredCircuit(
            0, name, load.breaker_amps, load.volts, draft.share_percent, draft.other_amps
        )
        _write_circuit(act, fresh, tuple(shelves))
        assert act.act_id is not None  # noqa: S101 - written above
        on = listed(list(shelves.values())) or "no shelf yet"
        words = (
            f"circuit {name}: {number_words(draft.breaker_amps)} A at {number_words(draft.volts)} V, "
            f"{on}"
        )
        act_id = act.act_id
    view = next(one for one in list_circuits(book) if fold(one.name) == fold(name))
    return Done(words, act_id, (), (*moved, *(() if view.load.within else (view.load.words,))))


def remove_circuit(book: Book, name: str) -> Done:
    """Write that there is no such circuit any more."""
    with book.writing() as act:
        known = read_circuits(act.reading)
        found = next((one for one in known if fold(one.name) == fold(name)), None)
        if found is None:
            names = listed([one.name for one in known]) or "none"
            raise Refused(f'There is no circuit "{name[:40]}"; there is {names}.')
        entry = _write_circuit(act, found, (), gone=True)
        paths = {place.id: place.path for place in act.reading.places}
        left = listed([paths[shelf] for shelf in found.shelves])
        notices = (f"On no circuit now: {left}.",) if left else ()
        return Done(f"circuit {found.name} is gone", entry, (), notices)


def _write_circuit(
    act: Act, circuit: StoredCircuit, shelves: Sequence[int], *, gone: bool = False
) -> int:
    from logbook.store.tables import CircuitRow, CircuitShelfRow

    entry = act.entry("circuit", ())
    act.session.add(
        CircuitRow(
            entry_id=entry,
            name=circuit.name,
            name_key=fold(circuit.name),
            breaker_amps=circuit.breaker_amps,
            volts=circuit.volts,
            share_percent=circuit.share_percent,
            other_amps=circuit.other_amps,
            gone=gone,
        )
    )
    act.session.flush()
    act.session.add_all(CircuitShelfRow(entry_id=entry, place_id=shelf) for shelf in shelves)
    return entry


@dataclass(frozen=True, slots=True)
class CircuitView:
    """A circuit with its load.

    `guessed` are its shelves whose lamps' amperes nobody said, `dark` those with no lamps known.
    """

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
        """What the sum rests on."""
        found = []
        if self.guessed:
            found.append(
                f"No amps are known for {listed(list(self.guessed), 3)}: watts ÷ volts stand for "
                "them, the least that lamps can draw. Read the label."
            )
        if self.dark:
            found.append(f"No lamps are known for {listed(list(self.dark), 3)}.")
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Circuits:
    """The circuits, by name."""

    circuits: tuple[CircuitView, ...]


@dataclass(frozen=True, slots=True)
class Tariffs:
    """The prices of a kWh, oldest first."""

    tariffs: tuple[Tariff, ...]


def list_circuits(book: Book) -> list[CircuitView]:
    """Give the circuits with their loads, by name."""
    with book.reading() as reading:
        return circuit_views(reading)


def circuit_views(reading: Reading) -> list[CircuitView]:
    """Give the circuits with the sum of their amperes, the shelves in walking order."""
    paths = {place.id: place.path for place in reading.places}
    lamps = {one.place: one.lamps for one in read_lamp_sets(reading)}
    views = []
    for circuit in read_circuits(reading):
        amps, guessed, dark = [circuit.other_amps], [], []
        shelves = [shelf for shelf in paths if shelf in circuit.shelves]
        for shelf in shelves:
            if shelf not in lamps:
                dark.append(paths[shelf])
                continue
            drawn, known = circuit_amps(lamps[shelf], circuit.volts)
            amps.append(drawn)
            if not known and drawn > 0:
                guessed.append(paths[shelf])
        load = circuit_load(amps, circuit.breaker_amps, circuit.volts, circuit.share_percent / 100)
        views.append(
            CircuitView(
                circuit.name,
                tuple(paths[shelf] for shelf in shelves),
                circuit.other_amps,
                load,
                tuple(guessed),
                tuple(dark),
            )
        )
    return views


def shelf_pasts(reading: Reading) -> dict[int, ShelfPast]:
    """Give the past of every shelf (place id): hours, lamps and light."""
    before = first_hours(reading)
    changes = read_lamp_hours(reading)
    lamps = read_lamp_sets(reading)
    surveys = read_surveys(reading)
    found = {}
    for place in reading.places:
        if place.kind != "shelf":
            continue
        first = before.get(place.id, (place.lamp_on, place.lamp_off))
        found[place.id] = ShelfPast(
            wall_hours_of(*first),
            tuple((one.at, one.hours) for one in changes if one.place == place.id),
            tuple((one.at, one.lamps) for one in lamps if one.place == place.id),
            tuple(
                (one.at, uniformity([spot.ppfd for spot in one.spots]).mean)
                for one in surveys
                if one.place == place.id
            ),
        )
    return found
