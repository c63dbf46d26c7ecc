"""Despatch: packs for a customer are ticked, and with the tick come from a lot, or are live trays."""

from collections.abc import Sequence
from datetime import date, timedelta

from logbook.actions.book import Book
from logbook.actions.orders.customers import find_customer
from logbook.actions.orders.ordering import amount_words
from logbook.actions.orders.wanted import crop_names, wanted
from logbook.actions.packs.drawing import Parcel, despatch_packs
from logbook.actions.packs.joining import find_lot
from logbook.actions.packs.live import sell_live
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.actions.writing import Act
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import names_trays, parse_numbers
from logbook.growing.orders.customer import Customer, Mix
from logbook.growing.orders.order_text import read_order
from logbook.growing.orders.wishes import Wish
from logbook.growing.packs.lots import LEAST, LotNow
from logbook.growing.quantities import PACKS
from logbook.growing.when import parse_day_ahead
from logbook.store.reads.orders import read_mixes
from logbook.store.reads.packs import lots_of_code
from logbook.store.reads.templates import template_of_versions
from logbook.text import Refused, clean, fold

AHEAD = timedelta(days=60)
"""So far ahead a delivery may be packed."""


def tick(
    act: Act, parcel: Parcel, lot: LotNow | None = None, numbers: Sequence[int] = ()
) -> tuple[str, list[str]]:
    """Write that packs are packed, and which lot, or which trays (numbers), they are of.

    By themselves they come from the oldest lots. Returns what to say of it, and what is odd.
    """
    reading = act.reading
    amount = amount_words(parcel.packs, parcel.pack_grams, reading.units)
    what = f"{parcel.name} {amount}"
    note = f"{parcel.customer.name}: {what} for {day_words(parcel.day, reading.today)}"
    entry = act.entry("pack", (), note=note)
    act.put(
        "packed", entry, order_id=parcel.order, customer_id=parcel.customer.id,
        template_id=parcel.template, mix_id=parcel.mix.id if parcel.mix else None,
        packs=parcel.packs, pack_grams=parcel.pack_grams, day=parcel.day,
    )  # fmt: skip
    when = act.done_now
    if parcel.pack_grams is None:
        lots, lacking = sell_live(act, entry, parcel.template or 0, parcel.packs, when, numbers)
    else:
        lots, lacking = despatch_packs(act, entry, parcel, when, lot)
    if lots:
        act.change("entry", entry, note=f"{note}, {lots}")
        what = f"{what} ({lots})"
    return what, [lacking] if lacking else []


def despatch(book: Book, customer: str, lot: str, packs: str, day: str = "") -> Done:
    """Write that a customer's packs, as "6", "6 x 50g" or "300g", are of a lot, by its code.

    Live trays go by their numbers. They are ticked off what the customer gets next of that crop or
    mix, or on a day; where that is nothing they are written for today, or that day, without an order.
    Raises Refused for a lot that is none, is on hold, past its best before, or has less.
    """
    with book.writing() as act:
        reading = act.reading
        who = find_customer(reading, customer)
        when = parse_day_ahead(day, reading.now, reading.zone) if day else None
        count, size = _amount(packs, reading)
        found, numbers, mix = None, tuple[int, ...](), None
        if names_trays(lot) and not lots_of_code(reading, fold(lot)):
            numbers = parse_numbers(lot)
            versions = {each.stored.version_id for each in reading.trays(numbers)}
            template: int | None = next(iter(template_of_versions(reading, versions).values()))
        else:
            found = find_lot(reading, lot)
            template, mix = found.lot.template, _mix(reading, found.lot.mix)
        wishes = [
            wish for wish in _next_wishes(reading, who, when)
            if (wish.order.template, wish.order.mix) == (template, mix and mix.id)
            and (wish.order.pack_grams is None) == bool(numbers)
        ]  # fmt: skip
        of_size = (wish for wish in wishes if size in (None, wish.order.pack_grams))
        wish = next(of_size, next(iter(wishes), None))
        if size is None and wish is not None:
            size = wish.order.pack_grams
        if size is None and not numbers:
            raise Refused(f"How large are the packs? Write them like {count} x 50g.", "packs")
        parcel = Parcel(
            who, mix.name if mix else crop_names(reading)[template or 0], template, mix, count, size,
            wish.day if wish else when or reading.today, wish.order.id if wish else None,
        )  # fmt: skip
        said, notices = tick(act, parcel, found, numbers)
        if wish is None:
            notices.append(f"{who.name} didn't order it; it is written without an order.")
        else:
            notices += beyond(parcel, wish, reading.units)
        day_said = day_words(parcel.day, reading.today)
        return done_of(act, f"packed for {who.name}, {day_said}: {said}", (), notices)


def beyond(parcel: Parcel, wish: Wish, units: Units) -> list[str]:
    """Say how much more goes out than what was still to be packed of a wish; [] for no more."""
    if parcel.pack_grams == wish.order.pack_grams:
        more = float(parcel.packs - int(wish.to_pack))
        said = f"{more:.0f}"
    else:
        more = parcel.grams - wish.to_pack * (wish.order.pack_grams or 0)
        said = grams_words(more, units)
    return [f"That is {said} more than {parcel.customer.name} ordered."] if more >= LEAST else []


def _amount(text: str, reading: Reading) -> tuple[int, float | None]:
    words = clean(text, lines=False)
    if words.isdecimal():
        return PACKS.read(words), None
    wrong = Refused(f'"{words[:30]}" isn\'t an amount. Write it like 6, 6 x 50g or 300g.', "packs")
    try:
        asked = read_order(f"it {words}", reading.now, reading.zone, reading.units)
    except Refused as refused:
        raise (refused if any(map(str.isdigit, words)) else wrong) from refused
    if asked.weekdays or asked.day or asked.clock or asked.pack_grams is None:
        raise wrong
    return asked.packs, asked.pack_grams


def _mix(reading: Reading, mix: int | None) -> Mix | None:
    return next((each for each in reversed(read_mixes(reading)) if each.id == mix), None)


def _next_wishes(reading: Reading, who: Customer, day: date | None) -> list[Wish]:
    """What a customer gets on a day, or from today on, what is still to pack before the rest."""
    deliveries = wanted(reading, day or reading.today, day or reading.today + AHEAD)
    mine = [wish for each in deliveries for wish in each.wishes if wish.customer.id == who.id]
    return [each for each in mine if each.to_pack] or (mine if day else [])
