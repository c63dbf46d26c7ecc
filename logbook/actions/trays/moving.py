"""Moves and discards: where trays go."""

import re
from collections.abc import Sequence
from datetime import datetime

from logbook.actions.book import Book
from logbook.actions.orders.shortages import Shortages
from logbook.actions.reading import Reading
from logbook.actions.trays import done
from logbook.actions.trays.dark import dark_notices
from logbook.actions.trays.placing import crowded, open_shelves, place_trays
from logbook.actions.writing import Act
from logbook.growing.numbers import numbers_words
from logbook.growing.room.places import (
    Held,
    Place,
    Places,
    Taken,
    free_slots,
    lack_words,
    spread_over,
)
from logbook.growing.trays.tray_now import TrayNow, taken_slots
from logbook.text import Refused, clean_reason, listed


def move(book: Book, numbers: done.Numbers, place: str, at: datetime | None = None) -> done.Done:
    """Move growing trays to free slots of a place ("Rack 1/Shelf 2/3" names a slot), if it has any."""
    with book.writing() as act:
        when = act.moment(at, "A move")
        trays = act.reading.trays(numbers)
        numbers = done.numbers_of(trays)
        done.refuse_unsown(act, trays, when, "a move")
        path = move_to(act, trays, place, when)
        after = act.reading
        notices = dark_notices(after, after.trays(numbers))
        return done.done_of(act, f"moved {numbers_words(numbers)} to {path}", numbers, notices)


def slot_named(text: str, places: Places) -> tuple[Place, int | None]:
    """The place, and the slot where the text names one: "Rack 1/Shelf 2/3"."""
    head, _, tail = text.rpartition("/")
    if head and re.fullmatch(r"\s*\d{1,6}\s*", tail):
        try:
            place = places.find(head)
        except Refused:
            return places.find(text), None
        if place.kind == "shelf":
            return place, int(tail)
    return places.find(text), None


def chosen_spots(
    reading: Reading, trays: Sequence[TrayNow], text: str
) -> tuple[Place, tuple[tuple[int, int] | None, ...]]:
    """The place of a text and a free spot on it (place id, slot) for each tray, or Refused."""
    place, slot = slot_named(text, reading.places)
    shelves = open_shelves(reading, reading.places.under(place))
    moving = set(done.ids_of(trays))
    stack = reading.about.stack
    taken = taken_slots([each for each in reading.live if each.id not in moving], stack)
    shares = [known.trays_a_slot(stack) for known in trays]
    if slot is not None:
        if len(set(shares)) > 1:
            raise Refused("These trays can't share a slot; name the shelf alone.")
        if len(trays) > shares[0]:
            takes = "one tray" if shares[0] == 1 else f"{shares[0]} trays like these"
            raise Refused(f"A slot takes {takes}; name the shelf for several.")
        free = free_slots(place, taken, shares[0])
        if free.count(slot) < len(trays):
            if not 1 <= slot <= place.slots:
                raise Refused(f"{place.path} has no slot {slot}; its slots are 1 to {place.slots}.")
            slots = listed([str(each) for each in dict.fromkeys(free)])
            rest = f"Free: {slots}." if free else "It is full."
            raise Refused(f"Slot {slot} of {place.path} is not free. {rest}")
        return place, ((place.id, slot),) * len(trays)
    spots = _spread(shelves, shares, taken)
    if None in spots:
        room = sum(spot is not None for spot in spots)
        free_there = {
            shelf.path: len(set(free_slots(shelf, taken, max(shares))))
            for shelf in reading.places.shelves
        }
        free_words = [f"{path} ({free})" for path, free in free_there.items() if free]
        rest = f"Free slots: {listed(free_words)}." if free_words else "Every shelf is full."
        raise Refused(f"{lack_words([place.path], room, len(trays))} {rest}")
    return place, spots


def _spread(
    shelves: Sequence[Place], shares: Sequence[int], taken: Taken
) -> tuple[tuple[int, int] | None, ...]:
    """A free spot for each tray; `shares` say how many trays like it share a slot."""
    held = {shelf: [*slots] for shelf, slots in taken.items()}
    found: dict[int, tuple[int, int] | None] = {}
    for share in dict.fromkeys(shares):
        mine = [at for at, each in enumerate(shares) if each == share]
        spots = spread_over(len(mine), shelves, (), held, share).spots
        found.update(zip(mine, spots, strict=True))
        for shelf, slot in filter(None, spots):
            held.setdefault(shelf, []).append(Held(slot, share))
    return tuple(found[at] for at in range(len(shares)))


def move_to(act: Act, trays: Sequence[TrayNow], text: str, when: datetime) -> str:
    """Write a move of trays to a place; returns the paths of the shelves that they came to."""
    place, spots = chosen_spots(act.reading, trays, text)
    entry = done.entry_on(act, "move", trays, when)
    place_trays(act, entry, done.ids_of(trays), spots)
    if place.kind == "shelf":
        return place.path
    came = {spot[0] for spot in spots if spot is not None}
    return listed([each.path for each in act.reading.places if each.id in came])


def put_on(act: Act, trays: Sequence[TrayNow], text: str, when: datetime) -> None:
    """Write a move of trays, as they were then, to a place; of those already there, none if they fit."""
    place, slot = slot_named(text, act.reading.places)
    if slot is None and not crowded(act.reading, trays):
        trays = [known for known in trays if known.state.place != place.id]
    if trays:
        move_to(act, trays, text, when)


def discard(book: Book, numbers: done.Numbers, why: str, at: datetime | None = None) -> done.Done:
    """Discard trays, with the reason; they leave the rack."""
    why = clean_reason(why)
    with book.writing() as act:
        when = act.moment(at, "A discard")
        trays = act.reading.trays(numbers)
        numbers = done.numbers_of(trays)
        done.refuse_before_sowing(act, trays, when, "a discard")
        shortages = Shortages(act.reading, trays)
        done.entry_on(act, "discard", trays, when, note=why)
        notices = shortages.made_by(act)
        return done.done_of(act, f"discarded: {numbers_words(numbers)}", numbers, notices)
