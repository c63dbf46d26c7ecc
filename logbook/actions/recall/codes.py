"""What a code means: trays by their numbers, a batch, a seed lot, a shelf."""

import re
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass

from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.days import day_of
from logbook.growing.numbers import name_words, names_trays, on_day, parse_numbers
from logbook.growing.recall.holds import Held
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, clean_name, fold, listed

NAMED = {
    "seed lot": "seed lot", "lot": "seed lot", "batch": "batch", "trays": "tray", "tray": "tray",
    "shelf": "place", "rack": "place", "place": "place",
}  # fmt: skip
"""Words before a code that say what it is of."""


@dataclass(frozen=True, slots=True)
class Meant:
    """A thing that a code means, and what it is called: "seed lot DK 10", "tray 101"."""

    name: str
    on: Held
    trays: tuple[TrayNow, ...] = ()
    """Of a tray or a batch: all of it."""


def meant_by(reading: Reading, code: str) -> list[Meant]:
    """The things that a code means: one, or each of several trays.

    Raises Refused where that is nothing in the book, or may be more than one thing.
    """
    text = clean_name(code, "code")
    said = next((what for what in NAMED if fold(text).startswith(f"{what} ")), "")
    kind, rest = NAMED.get(said, ""), text[len(said) :].strip()
    found: dict[str, list[Meant]] = {}
    if kind:
        with suppress(Refused):
            found[kind] = _FIND[kind](reading, f"b{rest}" if said == "batch" else rest)
    if not any(found.values()):
        found = {what: _tried(find, reading, text) for what, find in _FIND.items()}
    found = {what: things for what, things in found.items() if things}
    if len(found) > 1:
        which = listed([f'"{what} {text}"' for what in found], joint="or")
        raise Refused(f'"{text[:40]}" may be more than one thing; write {which}.', "code")
    if not found:
        if trays := _trays(reading, rest):
            return trays
        raise Refused(
            f'The book has no seed lot, batch, tray or shelf "{text[:60]}". Write it as on the bag '
            'or the tape; a batch like b12, a shelf like "Rack 1/Shelf 2".',
            "code",
        )
    return next(iter(found.values()))


_Find = Callable[[Reading, str], list[Meant]]


def _tried(find: _Find, reading: Reading, text: str) -> list[Meant]:
    try:
        return find(reading, text)
    except Refused:
        return []


def _seed(reading: Reading, text: str) -> list[Meant]:
    found = lots_in_stock(reading, only=text)
    return [Meant(f"seed lot {each.lot}", Held(seed_lot=each.lot)) for each in found]


def _batch(reading: Reading, text: str) -> list[Meant]:
    number = re.fullmatch(r"b\s?(\d{1,9})", text, re.IGNORECASE)
    trays = reading.folded(read_trays_of_batch(reading, int(number[1]))) if number else []
    standing = tuple(each for each in trays if each.status != "void")
    if number is None or not standing:
        return []
    return [Meant(f"batch {int(number[1])}", Held(batch_id=int(number[1])), standing)]


def _trays(reading: Reading, text: str) -> list[Meant]:
    if re.match(r"b", text, re.IGNORECASE) or not names_trays(text):
        return []
    found = reading.trays(parse_numbers(text), live=False)
    return [Meant(f"tray {_tray_name(each)}", Held(tray_id=each.id), (each,)) for each in found]


def _tray_name(tray: TrayNow) -> str:
    """Its number; of one whose number may be another's by now with the day on which it was sown."""
    sown = tray.state.sown_at
    if tray.state.live or sown is None:
        return name_words(tray.number)
    return name_words(on_day(tray.number, day_of(sown, tray.hours.zone)))


def _place(reading: Reading, text: str) -> list[Meant]:
    if names_trays(text):
        return []
    place = reading.places.find(text)
    return [Meant(place.path, Held(place_id=place.id))]


_FIND: dict[str, _Find] = {"seed lot": _seed, "batch": _batch, "tray": _trays, "place": _place}
