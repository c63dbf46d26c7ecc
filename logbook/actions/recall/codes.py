"""What is held or called back by a code: what a trace has it for, or a day, a shelf, an entry."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from logbook.actions.packs.roots import root_of
from logbook.actions.reading import Reading
from logbook.actions.room.lives import lives_since
from logbook.growing.crops.seed_lots import plain
from logbook.growing.days import day_bounds, day_of, day_words
from logbook.growing.numbers import name_words, names_trays, on_day, parse_numbers
from logbook.growing.packs.flow import Node
from logbook.growing.recall.holds import Held
from logbook.growing.trays.tray_now import TrayNow
from logbook.growing.when import parse_day
from logbook.store.reads.entries import StoredEntry, read_entry
from logbook.store.reads.packs import read_lots, read_lots_since
from logbook.store.reads.recalls import cut_without_lot
from logbook.store.reads.trays import read_trays, read_trays_of_batch
from logbook.store.rows import LARGEST_ID
from logbook.text import Refused, clean_name, fold, listed

SHELF_DAYS = 30
"""Trays that stood on a shelf in so many days are called back with it."""
ALSO = 'Also a day ("day 2026-04-14"), a shelf ("Rack 1/Shelf 2") or an entry ("entry 123") can be named.'


@dataclass(frozen=True, slots=True)
class Meant:
    """A thing that a code means, and what it is called: "seed lot DK 10", "tray 101"."""

    name: str
    on: Held
    trays: tuple[TrayNow, ...] = ()
    """Of a tray or a batch: all of it."""


@dataclass(frozen=True, slots=True)
class CalledBack:
    """What a recall begins at, and what it is called: "day Fri 27 Nov", "tray 101"."""

    name: str
    nodes: tuple[Node, ...]


def called_back(reading: Reading, code: str, days: int = SHELF_DAYS) -> CalledBack:
    """What a code calls back; of a shelf the trays that stood there in so many days.

    Raises Refused where the book knows nothing by that name, or where nothing was cut or grew.
    """
    text = clean_name(code, "code")
    if (found := re.fullmatch(r"entry\s+#?(\d{1,15})", text, re.IGNORECASE)) is not None:
        return _of_entry(reading, int(found[1]))
    if found := re.fullmatch(
        r"(?:day\s+)?(\d{4}-\S+|today|yesterday|\d+ days? ago)", text, re.IGNORECASE
    ):
        return _of_day(reading, found[1])
    if (place := _place(reading, text)) is not None:
        return _of_shelf(reading, place, reading.now - timedelta(days=days), reading.now)
    if names_trays(text) and not fold(text).startswith("b"):
        trays = reading.trays(parse_numbers(text), live=False)
        return CalledBack(_trays_name(trays), tuple(Node("tray", each.id) for each in trays))
    try:
        root = root_of(reading, text)
    except Refused as refused:
        raise Refused(f"{refused} {ALSO}", "code") from refused
    return CalledBack(f"{root.what} {root.code}", root.nodes)


def meant_by(reading: Reading, code: str) -> list[Meant]:
    """The things that a code puts on hold, or releases; as called_back(), but a shelf is itself."""
    text = clean_name(code, "code")
    place = _place(reading, text)
    if place is not None:
        return [Meant(reading.places.path(place), Held(place_id=place))]
    nodes = called_back(reading, text).nodes
    if any(node.what == "seed lot" for node in nodes):
        nodes = _spelled(nodes, text)
    if not nodes:
        raise Refused(f"Nothing was cut or grown as {text[:40]}.", "code")
    return _things(reading, nodes)


def _spelled(nodes: tuple[Node, ...], text: str) -> tuple[Node, ...]:
    """Of seed lots those of one spelling; raises Refused where several bags may be meant."""
    known = {plain(str(node.id)): node for node in nodes[::-1]}
    named = [node for key, node in known.items() if fold(text).endswith(fold(str(node.id)))]
    exact = [node for key, node in known.items() if plain(text).endswith(key)]
    chosen = named or exact or list(known.values())
    if len(chosen) > 1 and not (named or exact):
        which = listed([f'"seed lot {node.id}"' for node in chosen], joint="or")
        raise Refused(f'"{text[:40]}" may be more than one bag; write {which}.', "code")
    return tuple(chosen[:1])


def _things(reading: Reading, nodes: Iterable[Node]) -> list[Meant]:
    found = dict[Node, Meant]()
    for node in nodes:
        match node:
            case Node("seed lot", str(lot)):
                found[node] = Meant(f"seed lot {lot}", Held(seed_lot=lot))
            case Node("batch", int(batch)):
                trays = tuple(reading.folded(read_trays_of_batch(reading, batch)))
                found[node] = Meant(f"batch {batch}", Held(batch_id=batch), trays)
            case Node("pack lot", int(lot)) | Node("delivery", (_, int(lot))) if lot:
                known = read_lots(reading, [lot])[lot]
                found[Node("pack lot", lot)] = Meant(f"pack lot {known.code}", Held(lot_id=lot))
            case Node("tray", int(tray)) | Node("cut", (_, int(tray))):
                (known_tray,) = reading.folded(read_trays(reading, [tray]))
                name = f"tray {_tray_name(known_tray)}"
                found[Node("tray", tray)] = Meant(name, Held(tray_id=tray), (known_tray,))
    return list(found.values())


def _tray_name(tray: TrayNow) -> str:
    """Its number; of one whose number may be another's by now with the day on which it was sown."""
    sown = tray.state.sown_at
    if tray.state.live or sown is None:
        return name_words(tray.number)
    return name_words(on_day(tray.number, day_of(sown, tray.hours.zone)))


def _trays_name(trays: list[TrayNow]) -> str:
    names = [_tray_name(each) for each in trays]
    return f"{'tray' if len(names) == 1 else 'trays'} {listed(names, 8)}"


def _place(reading: Reading, text: str) -> int | None:
    """The place (id) of a text that is its path, or is said to be one; None for none."""
    said = next((word for word in ("shelf ", "rack ", "place ") if fold(text).startswith(word)), "")
    for each in (text, text[len(said) :]):
        same = [one for one in reading.places if fold(one.path) == fold(each)]
        if same:
            return same[0].id
    if not said and "/" not in text:
        return None
    try:
        return reading.places.find(text).id
    except Refused:
        return reading.places.find(text[len(said) :]).id if said else None


def _of_day(reading: Reading, text: str) -> CalledBack:
    """What was cut on a day: its pack lots, and what went into none."""
    day = parse_day(text, reading.now, reading.zone)
    lots = [each.id for each in read_lots_since(reading, day).values() if each.packed_on == day]
    bare = cut_without_lot(reading, *day_bounds(day, reading.zone))
    nodes = (*(Node("pack lot", lot) for lot in lots), *(Node("cut", cut) for cut in bare))
    if not nodes:
        raise Refused(f"Nothing was cut or packed on {day_words(day, reading.today)}.", "code")
    return CalledBack(f"day {day}", nodes)


def _of_shelf(reading: Reading, place: int, start: datetime, end: datetime) -> CalledBack:
    """The trays that stood on a place at some time of a span."""
    there = {each.id for each in reading.places if place in each.walk[1::2]}
    trays = [
        tray
        for tray, stays in lives_since(reading, start, end).items()
        if any(stay.place in there and stay.end >= start for stay in stays)
    ]
    path = reading.places.path(place)
    if not trays:
        raise Refused(f"No tray was on {path} since {reading.when(start)}.", "code")
    return CalledBack(path, tuple(Node("tray", tray) for tray in sorted(trays)))


def _of_entry(reading: Reading, number: int) -> CalledBack:
    """What a finding speaks of: its trays, else those that stood on its place then."""
    entry = read_entry(reading, number) if 0 < number < LARGEST_ID else None
    if entry is None or entry.struck:
        gone = "is struck out" if entry else "isn't in the book"
        raise Refused(f"Entry {number} {gone}; look it up on its day's page.", "code")
    if entry.tray_ids:
        return CalledBack(f"entry {number}", tuple(Node("tray", each) for each in entry.tray_ids))
    return _at_place(reading, entry)


def _at_place(reading: Reading, entry: StoredEntry) -> CalledBack:
    if entry.place_id is None:
        raise Refused(f"Entry {entry.id} names no tray and no place.", "code")
    found = _of_shelf(reading, entry.place_id, entry.at, entry.at)
    return CalledBack(f"entry {entry.id}", found.nodes)
