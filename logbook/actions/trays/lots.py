"""Seed lots as sowings name them: in which spelling, of which batch."""

from collections.abc import Sequence
from dataclasses import replace

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.growing.crops.seed_lots import (
    SeedLot,
    alike,
    lots_from,
    parted,
    plain,
    refuse_twice,
)
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.reads.lots import read_lot_names, read_lots, read_recent_lots
from logbook.store.reads.seed import read_bag_names
from logbook.store.reads.trays import read_trays_of_batch
from logbook.text import Refused, listed

NEWEST = 8
RECENT = 12


def lots_named(reading: Reading, text: str) -> tuple[tuple[SeedLot, ...], tuple[str, ...]]:
    """The lots of a text, each as the book spells it, and what to say of that, a sentence each.

    One in quotes stays as it is typed; a list of lots that the book knows is these. Raises Refused
    as lots_from() does.
    """
    lots, said = lots_from(text, reading.units), []
    names = [*read_bag_names(reading), *read_lot_names(reading)] if lots else []
    if len(lots) == 1 and not lots[0].apart and lots[0].grams is None and text.strip() not in names:
        several, spelled = parted(lots[0].lot, reading.units), {plain(name) for name in names}
        if {plain(each.lot) for each in several} <= spelled:
            lots = several or lots
    found = []
    for each in lots:
        same = next((name for name in names if plain(name) == plain(each.lot)), None)
        other = [name for name in names if alike(name, each.lot)]
        if each.apart or each.lot in names:
            found.append(each)
            continue
        found.append(replace(each, lot=same or each.lot))
        if same is not None:
            said.append(
                f"Seed lot {each.lot} is stored as {same}, as the book has it. If it is another bag, "
                f'put it in quotes: "{each.lot}".'
            )
        elif other:
            said.append(
                f"Seed lot {each.lot} is spelled like {listed(other, NEWEST)}; compare the bags."
            )
    refuse_twice(found)
    return tuple(found), tuple(said)


def knows_lots(reading: Reading, text: str) -> bool:
    """Whether a text is a lot that the book has in some spelling, or a list of such."""
    spelled = {plain(name) for name in (*read_bag_names(reading), *read_lot_names(reading))}
    try:
        return {plain(each.lot) for each in lots_named(reading, text)[0]} <= spelled
    except Refused:
        return False


def recent_lots(book: Book) -> list[str]:
    """The seed lots that were sown from last, then those of the newest bags."""
    with book.reading() as reading:
        known = (*read_recent_lots(reading, RECENT), *read_bag_names(reading)[:RECENT])
        return list(dict.fromkeys(known))


def planned_lots(reading: Reading, trays: Sequence[TrayNow]) -> tuple[SeedLot, ...]:
    """The lots of the batch that trays are of; their grams only where it is the whole batch."""
    batch = trays[0].stored.batch_id
    lots = read_lots(reading, [batch]).get(batch, ())
    if len(read_trays_of_batch(reading, batch)) == len(trays):
        return lots
    return tuple(replace(each, grams=None) for each in lots)
