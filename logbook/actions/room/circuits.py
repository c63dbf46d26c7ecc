"""Circuits: which lamps hang on one, and what it carries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.growing.measures import number_words
from logbook.growing.room.circuits import Circuit, CircuitLoad
from logbook.growing.room.power import circuit_amps
from logbook.store.reads.lamps import read_circuits, read_lamp_sets
from logbook.text import Refused, clean_name, fold, listed

if TYPE_CHECKING:
    from logbook.actions.writing import Act


@dataclass(frozen=True, slots=True)
class CircuitDraft(Circuit):
    """A circuit with the paths of the places whose lamps hang on it."""

    places: tuple[str, ...] = ()


def set_circuit(book: Book, draft: CircuitDraft) -> Done:
    """Write a circuit, or say an old one anew under its name.

    A shelf hangs on one circuit: it leaves the one on which it was.
    """
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
        for old in read_circuits(act.reading):
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
        known = read_circuits(act.reading)
        found = next((one for one in known if fold(one.name) == fold(name)), None)
        if found is None:
            names = listed([one.name for one in known]) or "none"
            raise Refused(f'There is no circuit "{name[:40]}"; there is {names}.')
        _write_circuit(act, found, (), gone=True)
        left = listed([act.reading.places.path(shelf) for shelf in found.shelves])
        notices = [f"On no circuit now: {left}."] if left else []
        return done_of(act, f"circuit {found.name} is gone", (), notices)


def _write_circuit(
    act: Act, circuit: Circuit, shelves: Sequence[int], *, gone: bool = False
) -> None:
    from logbook.store.tables import CircuitRow, CircuitShelfRow

    entry = act.entry("circuit", ())
    said = {name: getattr(circuit, name) for name in [each.name for each in fields(Circuit)]}
    act.session.add(CircuitRow(entry_id=entry, name_key=fold(circuit.name), gone=gone, **said))
    act.session.flush()
    act.session.add_all(CircuitShelfRow(entry_id=entry, place_id=shelf) for shelf in shelves)


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
        guessed = (
            f"No amps are known for {listed(self.guessed, 3)}: watts ÷ volts stand for them, the "
            "least that lamps can draw. Read the label."
        )
        dark = f"No lamps are known for {listed(self.dark, 3)}."
        return (guessed,) * bool(self.guessed) + (dark,) * bool(self.dark)


@dataclass(frozen=True, slots=True)
class Circuits:
    """The circuits, by name."""

    circuits: tuple[CircuitView, ...]


def list_circuits(book: Book) -> list[CircuitView]:
    """The circuits with their loads, by name."""
    with book.reading() as reading:
        return circuit_views(reading)


def circuit_views(reading: Reading) -> list[CircuitView]:
    """The circuits with the sum of their amperes, the shelves in walking order."""
    lamps = {one.place: one.lamps for one in read_lamp_sets(reading)}
    views = []
    for circuit in read_circuits(reading):
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
