"""Packing: what a delivery takes is ticked line by line, and a tick can be taken back."""

from collections.abc import Sequence
from datetime import date

from logbook.actions.book import Book
from logbook.actions.orders.customers import find_customer
from logbook.actions.orders.wanted import crop_names, wanted, wish_crop
from logbook.actions.packs.despatching import AHEAD, beyond, tick
from logbook.actions.packs.drawing import Parcel
from logbook.actions.packs.owing import gone_with
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.striking import write_strike
from logbook.actions.writing import Act
from logbook.growing.days import day_words
from logbook.growing.orders.wishes import Wish
from logbook.growing.quantities import PACKS
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.entries import read_entry
from logbook.store.reads.orders import read_packed
from logbook.text import Refused, fold, listed


def pack(
    book: Book, order: int, day: date, packs: int | None = None, numbers: Sequence[int] = ()
) -> Done:
    """Tick a line of a delivery as packed, all that is left of it, or so many packs; live trays by their numbers."""
    with book.writing() as act:
        found = [wish for wish in wishes_on(act.reading, day) if wish.order.id == order]
        if not found:
            raise Refused(
                f"Nothing is to be delivered on {day_words(day, act.reading.today)} of that order."
            )
        return _pack(act, found, len(numbers) or packs, numbers)


def pack_for(
    book: Book, customer: str, crop: str = "", day: str = "", packs: int | None = None
) -> Done:
    """Tick what a customer gets as packed: all lines of the next delivery, or of a day, or one crop's."""
    with book.writing() as act:
        reading, crops = act.reading, crop_names(act.reading)
        who = find_customer(reading, customer)
        last = reading.today + AHEAD
        when = parse_day_ahead(day, reading.now, reading.zone) if day else None
        mine = [
            wish
            for delivery in wanted(reading, when or reading.today, when or last)
            for wish in delivery.wishes
            if wish.customer.id == who.id and fold(wish_crop(wish, crops)).startswith(fold(crop))
        ]
        undone = [wish for wish in mine if wish.to_pack] or mine
        chosen = [wish for wish in undone if wish.day == undone[0].day]
        if packs is not None and len(chosen) > 1:
            raise Refused("Packs of which crop? Give the crop too.")
        if not chosen:
            of = f" of {crop[:40]}" if crop else ""
            raise Refused(f"{who.name} has no delivery{of} to pack.")
        return _pack(act, chosen, packs)


def wishes_on(reading: Reading, day: date) -> list[Wish]:
    """What is wanted on a day."""
    return [wish for delivery in wanted(reading, day, day) for wish in delivery.wishes]


def _pack(act: Act, wishes: Sequence[Wish], packs: int | None, numbers: Sequence[int] = ()) -> Done:
    said, notices, crops = [], [], crop_names(act.reading)
    for wish in wishes:
        left, order, name = wish.to_pack, wish.order, wish_crop(wish, crops)
        if not left and packs is None:
            raise Refused(f"{wish.customer.name}: {name} is packed already.")
        size, count = order.pack_grams, int(left) if packs is None else PACKS.checked(packs)
        if packs is None and size is not None and not left.is_integer():
            size, count = left * size, 1  # the rest of one that another size went for
        parcel = Parcel(
            wish.customer, name, order.template, wish.mix, count, size, wish.day, order.id
        )
        what, odd = tick(act, parcel, numbers=numbers)
        said.append(what)
        notices += [*odd, *beyond(parcel, wish, act.reading.units)]
    words = f"packed for {wishes[0].customer.name}, {day_words(wishes[0].day, act.reading.today)}: "
    return done_of(act, words + listed(said), (), notices)


def unpack(book: Book, order: int, day: date) -> Done:
    """Take the ticks of a line of a delivery back."""
    with book.writing() as act:
        ticked = [
            each for each in read_packed(act.reading, day) if (each.order, each.day) == (order, day)
        ]
        if not ticked:
            raise Refused("That isn't packed.")
        entries = [entry for each in ticked if (entry := read_entry(act.reading, each.entry))]
        for entry in entries:
            for each in (entry, *gone_with(act.reading, entry)):
                write_strike(act, each, "not packed after all")
        return done_of(act, f"not packed after all: {listed([each.note for each in entries])}", ())
