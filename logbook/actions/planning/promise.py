"""Can I say yes? What the book says of an order before it is one, and its acceptance."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Annotated, ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.ordering import OrderDraft, amount_words, order, parts_of
from logbook.actions.planning.plan import accept_for, longest_days, wanted_until
from logbook.actions.reading import Reading
from logbook.actions.together import together as in_one_act
from logbook.actions.trays.done import Done
from logbook.growing.crops.chances import odds_words
from logbook.growing.days import day_of
from logbook.growing.keys import TrayNumber
from logbook.growing.numbers import numbers_words
from logbook.growing.orders.order_text import MOST_AHEAD, Asked, read_order
from logbook.growing.orders.wishes import CropPart
from logbook.growing.planning.promise import ANSWERS, Promised, Room, promise, together
from logbook.growing.when import parse_when
from logbook.text import Refused, plural
from logbook.ways import Way

HOW = 'When is it wanted? Add the day and the hour: "500g daikon fri 06:00".'


@dataclass(frozen=True, slots=True)
class PromiseView:
    """Whether an order can be promised: "yes", "if" it is sown by then, "later", or "no"."""

    keys: ClassVar = "answer chance trays from=start sow_by"

    promised: Promised
    trays: tuple[TrayNumber, ...]
    """The trays that it would take from; empty where it is from the cold store, or yet to be sown."""
    text: str
    """What was asked, in words that are understood."""
    ready_at: datetime
    words: str

    @property
    def answer(self) -> Annotated[str, ANSWERS]:
        """Whether."""
        return self.promised.answer

    @property
    def chance(self) -> float:
        """The chance of enough with that answer; of a "no" that of what there is."""
        return self.promised.chance

    @property
    def start(self) -> datetime | None:
        """From when it could be, where that is later; else null."""
        return self.promised.start

    @property
    def sow_by(self) -> datetime | None:
        """By when its soak or its sowing must begin, where the answer is "if"; else null."""
        return self.promised.sow_by


def promised(book: Book, text: str, by: str = "") -> PromiseView:
    """What can be said of an order like "500g daikon fri 06:00"; nothing is written. Raises Refused."""
    with book.reading() as reading:
        asked, ready = _asked(reading, text, by)
        return _view(reading, asked, ready)


def accept_promise(book: Book, customer: str, text: str, by: str = "") -> Done:
    """Write what can be promised as an order of a customer, and where it has to be sown, its sowing.

    Raises Refused where it can't be promised.
    """
    with in_one_act(book) as joined:
        with joined.reading() as reading:
            asked, ready = _asked(reading, text, by)
            view = _view(reading, asked, ready)
            if view.answer not in ("yes", "if"):
                raise Refused(f"{view.words} Nothing was written; {Way.ORDER} writes it anyway.")
        done = order(joined, OrderDraft(customer, view.text))
        if view.answer == "yes":
            return done
        sown = accept_for(joined, ready)
        return Done(f"{done.words}; {sown.words}", done.act_id, sown.numbers,
                    (*done.notices, *sown.notices))  # fmt: skip


def _asked(reading: Reading, text: str, by: str) -> tuple[Asked, datetime]:
    asked = read_order(text, reading.now, reading.zone, reading.units)
    if asked.weekdays:
        raise Refused("A promise is for one delivery; ask for each day separately.")
    said = by or " ".join(filter(None, (asked.day, asked.clock)))
    if not said:
        raise Refused(HOW)
    clock = (
        ""
        if by or asked.clock
        else f" {reading.hours.start // 60:02}:{reading.hours.start % 60:02}"
    )
    ready = parse_when(said + clock, reading.now, reading.zone, ahead=True)
    if ready <= reading.now:
        raise Refused(f"{reading.when(ready)} is past. Ask for a later time.")
    if ready - reading.now > timedelta(days=MOST_AHEAD):
        raise Refused(f"{reading.when(ready)} is more than a year ahead; check the date.")
    return asked, ready


def _view(reading: Reading, asked: Asked, ready: datetime) -> PromiseView:
    name, parts = parts_of(reading, asked, day_of(ready, reading.zone))
    crops = [part.template for part in parts]
    last = day_of(ready, reading.zone) + timedelta(days=longest_days(reading))
    wanted = wanted_until(reading, last, crops)
    room = Room(
        wanted.deliveries, wanted.stock, wanted.trays, wanted.crops, reading.hours, reading.now,
        reading.about.sure,
    )  # fmt: skip
    found = _in_room(reading, room, crops, together([promise(room, part, ready) for part in parts]))
    numbers = {tray.id: tray.number for tray in reading.live}
    trays = tuple(dict.fromkeys(numbers[tray] for tray in found.trays))
    what = f"{amount_words(asked.packs, asked.pack_grams, reading.units)} of {name}"
    words = (
        f"{what} by {reading.when(ready)}? {' '.join(_words(reading, found, trays, room, parts))}"
    )
    local = ready.astimezone(reading.zone)
    packs = "trays" if asked.pack_grams is None else f"x {asked.pack_grams:g}g"
    text = f"{name} {asked.packs} {packs} {local:%Y-%m-%d %H:%M}"
    return PromiseView(found, trays, text, ready, words)


def _in_room(reading: Reading, room: Room, crops: list[int], found: Promised) -> Promised:
    """The same, but no where it takes more trays than fit into the whole room, and so sown is told."""
    share = max(
        room.crops[crop].template.trays_a_slot(len(room.crops[crop].template.stages) - 1, 1)
        for crop in crops
    )
    most = share * sum(shelf.slots for shelf in reading.places.shelves)
    return (
        replace(found, answer="no", chance=0.0, start=None, sow_by=None)
        if 0 < most < found.sown
        else found
    )


def _words(
    reading: Reading, found: Promised, trays: tuple[int, ...], room: Room, parts: list[CropPart]
) -> Iterator[str]:
    odds = odds_words(found.chance)
    source = f"from {'tray' if len(trays) == 1 else 'trays'} {numbers_words(trays)}" if trays else (
        "from the cold store")  # fmt: skip
    sown = plural(found.sown, "tray")
    if found.answer == "yes":
        yield f"Yes, {source}: enough {odds}."
    elif found.answer == "if" and found.sow_by is not None:
        soaks = any(room.crops[part.template].template.soak_seconds for part in parts)
        verb = "soaked" if soaks else "sown"
        yield f"Yes, if {sown} {'is' if found.sown == 1 else 'are'} {verb} by {reading.when(found.sow_by)}"
        yield f"(enough {odds})."
    elif found.answer == "later" and found.start is not None:
        yield f"No, but from {reading.when(found.start)}"
        how = f"with {sown} sown now" if found.sown else source
        yield f"({how}: enough {odds})."
    elif found.sown:
        yield f"No: it takes {sown}, and there is no room for so many."
    elif any(not room.crops[part.template].weighs for part in parts):
        yield "No: its template expects no weight, so the book can't say how many trays it takes."
    else:
        yield f"No: enough {odds}, and no sowing makes it surer."
