"""Seed that is bought, counted or weighed: each an entry, so that it can be undone."""

from collections.abc import Mapping
from dataclasses import asdict, fields, replace
from datetime import date, datetime, timedelta
from typing import Any

from logbook.actions.book import Book
from logbook.actions.crops.templates import find_template
from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lot_in_stock, lots_in_stock
from logbook.actions.trays.done import Done, done_of
from logbook.actions.trays.striking import entry_to_strike, write_strike
from logbook.actions.writing import Act
from logbook.growing import quantities
from logbook.growing.crops.germination import germination_words
from logbook.growing.crops.unsafe import refuse_unsafe
from logbook.growing.days import day_words
from logbook.growing.measures import grams_words, number_words
from logbook.growing.seed.bags import TREATED, Bag, LotStock, SaidBag
from logbook.growing.seed.counted import Counted, below_words
from logbook.growing.when import parse_day
from logbook.store.reads.templates import read_templates
from logbook.text import Refused, clean_name, clean_reason, clean_words, fold, listed, nearest

OLDEST = timedelta(days=366 * 20)
OLD_TEST = timedelta(days=366)
NOTABLY = 1.1
"""So many times more than the book has left of a lot is asked about when it is weighed."""


def buy_seed(book: Book, bag: Bag, note: str = "", at: datetime | None = None) -> Done:
    """Write that a bag of seed was bought; a second bag of the same lot adds to the first."""
    with book.writing() as act:
        entry = act.entry("seed", (), act.moment(at, "Seed bought"), note=note)
        words, said = _put_bag(act, entry, bag)
        return done_of(act, words, (), said)


def change_seed(book: Book, lot: str, why: str, changes: Mapping[str, Any], bag: str = "") -> Done:
    """Strike a bag of a lot with a reason and write it anew with what is changed (fields of Bag).

    `bag` is the day on which it was bought, or its entry; the newest where nothing is said. Raises
    Refused where no such bag is written, nothing is changed, or it cannot be so.
    """
    with book.writing() as act:
        stock = lot_in_stock(act.reading, lot)
        said_bag = _bag_meant(act.reading, stock, bag)
        before = Bag(**{each.name: getattr(said_bag, each.name) for each in fields(Bag)})
        if (after := replace(before, **changes)) == before:
            raise Refused(f"Seed lot {stock.lot} is like that already; nothing was written.")
        old = entry_to_strike(act, said_bag.entry)
        write_strike(act, old, clean_reason(why))
        entry = act.entry("seed", (), old.at, note=old.note, strikes=old.id)
        words, said = _put_bag(act, entry, after)
        if len(stock.bags) > 1:
            which = "newest bag" if said_bag is stock.newest else "bag"
            said.insert(0, f"Its {which} was changed, bought on {day_words(before.bought)}.")
        return done_of(act, f"{words}; entry {entry} replaces entry {old.id}", (), said)


def _bag_meant(reading: Reading, stock: LotStock, text: str) -> SaidBag:
    if stock.newest is None:
        raise Refused(f"No bag of seed lot {stock.lot} is written yet; add it first.", "lot")
    if not text:
        return stock.newest
    entry = int(text) if text.isdecimal() and len(text) < 16 else None
    day = None if entry is not None else parse_day(text, reading.now, reading.zone)
    found = [bag for bag in stock.bags if bag.entry == entry or bag.bought == day]
    if len(found) == 1:
        return found[0]
    every = listed(
        [f"{day_words(each.bought)} (entry {each.entry})" for each in found or stock.bags], 8
    )
    several = f"Several bags of it were bought that day; name one by its entry: {every}."
    none = f'No bag of seed lot {stock.lot} is of "{text[:30]}"; its bags: {every}.'
    raise Refused(several if found else none, "bag")


def _put_bag(act: Act, entry: int, bag: Bag) -> tuple[str, list[str]]:
    reading = act.reading
    crop, said = _crop_named(reading, bag.crop)
    refuse_unsafe(crop)
    lot, supplier = clean_name(bag.lot, "lot number"), clean_words(bag.supplier, "supplier")
    quantities.BAG.checked(bag.grams, reading.units, "grams")
    if bag.price is not None:
        quantities.BAG_PRICE.checked(bag.price)
    _check_day(bag.bought, reading.today, "bought")
    if bag.tested is not None:
        _check_day(bag.tested, reading.today, "tested")
    had = lots_in_stock(reading, only=[lot])
    if had:
        lot = had[0].lot
        if had[0].crop and fold(had[0].crop) != fold(crop):
            said.append(f"Seed lot {lot} was {had[0].crop} until now; compare the bags.")
    row = asdict(bag) | {
        "lot": lot, "crop": crop, "supplier": supplier,
        "price": None if bag.price is None else f"{bag.price:f}",
    }  # fmt: skip
    act.put("seed_bag", entry, **row)
    said += _bag_notices(bag, crop, reading)
    words = f"{grams_words(bag.grams, reading.units)} of {crop}, seed lot {lot}"
    left = lot_in_stock(act.reading, lot).left_grams
    if had and had[0].bags and left is not None:
        words += f": {grams_words(left, reading.units)} in all now"
    return words, said


def count_seedlings(
    book: Book, lot: str, sown: int, up: int, note: str = "", at: datetime | None = None
) -> Done:
    """Write how many seeds of a lot came up; says how sure that is, and whether it is too few."""
    counted = Counted.checked(sown, up)
    with book.writing() as act:
        stock = lot_in_stock(act.reading, lot)
        entry = act.entry("seed_test", (), act.moment(at, "A count"), note=note)
        act.put("seed_test", entry, lot=stock.lot, sown=sown, up=up)
        label = stock.newest.germination_percent if stock.newest else None
        return done_of(act, f"seed lot {stock.lot}: {counted.words}", (),
                       below_words(stock.crop, counted, label))  # fmt: skip


def weigh_seed(
    book: Book, lot: str, grams: float, note: str = "", at: datetime | None = None
) -> Done:
    """Write what is left of a lot as it was weighed, 0 for an empty bag; from then on that counts."""
    quantities.LEFT.checked(grams, book.units, "grams")
    with book.writing() as act:
        stock, units = lot_in_stock(act.reading, lot), book.units
        had = stock.left_grams
        entry = act.entry("seed_weight", (), act.moment(at, "Seed weighed"), note=note)
        act.put("seed_weight", entry, lot=stock.lot, grams=grams)
        notices = []
        if had is not None and grams > max(had, 0.0) * NOTABLY + 1:
            notices.append(
                f"By the book {grams_words(max(had, 0.0), units)} were left. "
                "If another bag was bought, add it."
            )
        words = f"seed lot {stock.lot}: {grams_words(grams, units)} left"
        return done_of(act, words, (), notices)


def _check_day(day: date, today: date, about: str) -> None:
    if not today - OLDEST <= day <= today:
        raise Refused(
            f"{about.capitalize()} on {day}? Give a day from {today - OLDEST} to today.", about
        )


def _crop_named(reading: Reading, text: str) -> tuple[str, list[str]]:
    """The crop as its template has it, else as it is typed, which is said."""
    typed, templates = clean_name(text, "crop"), read_templates(reading)
    try:
        return find_template(typed, templates).template.label(), []
    except Refused:
        crops = {each.template.crop for each in templates}
        crops |= {each.template.label() for each in templates}
        known = next((crop for crop in sorted(crops) if fold(crop) == fold(typed)), None)
        if known is not None:
            return known, []
        return typed, [f"There is no crop template for {typed} yet.{nearest(typed, sorted(crops))}"]


def _bag_notices(bag: Bag, crop: str, reading: Reading) -> list[str]:
    said = []
    if bag.treated:
        said.append(f"This seed is treated: {TREATED}.")
    elif bag.treated is None:
        said.append(
            "The book doesn't say whether this seed is treated; look at the bag before you sow it."
        )
    if bag.for_food is False:
        said.append("This seed was not sold for food; ask the supplier before you eat what grows.")
    if bag.germination_percent is not None:
        quantities.GERMINATION.checked(bag.germination_percent, about="germination")
        legal = germination_words(crop, bag.germination_percent)
        said += [f"On the label: {legal}"] if legal else []
    if bag.tested is not None and reading.today - bag.tested > OLD_TEST:
        years = number_words((reading.today - bag.tested).days / 365.25, 1)
        said.append(f"The label's test is {years} years old; do a germination test of your own.")
    return said
