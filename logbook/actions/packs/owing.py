"""What strikes and corrections do to pack lots: what they leave short, and what goes with them."""

from collections.abc import Collection, Iterator, Mapping

from logbook.actions.reading import Reading
from logbook.growing.measures import grams_words
from logbook.growing.packs.lots import LEAST, LotNow
from logbook.store.reads.entries import StoredEntry, read_entry
from logbook.store.reads.orders import read_customers
from logbook.store.reads.packs import live_partners, lots_of_entries, read_lots, read_lots_now
from logbook.text import listed


def gone_with(reading: Reading, entry: StoredEntry) -> Iterator[StoredEntry]:
    """What is struck together with an entry: a tick of live trays and their sale are one."""
    if entry.kind in ("pack", "sold_live"):
        for partner in live_partners(reading, entry.id):
            found = read_entry(reading, partner)
            if found is not None and not found.struck:
                yield found


def short_lots(reading: Reading, entries: Collection[int]) -> list[str]:
    """Say which lots, of those that entries bear on, gave more than they weighed, or got more back than they gave."""
    ids = {lot for lots in lots_of_entries(reading, entries).values() for lot in lots}
    lots = read_lots_now(reading, read_lots(reading, ids))
    names = {each.id: each.name for each in read_customers(reading)}
    short = [_short(reading, each, names) for each in lots if each.grams_left <= -LEAST]
    over = [
        f"{names[who]} returned {grams_words(-each.got(who), reading.units)} more of lot {each.lot.code} "
        "than they got. Strike out the return too."
        for each in lots
        for who in dict.fromkeys(out.customer for out in each.outs if out.customer)
        if each.got(who) <= -LEAST
    ]
    return [*short, *over]


def _short(reading: Reading, lot: LotNow, names: Mapping[int, str]) -> str:
    went = list(dict.fromkeys(names[each.customer] for each in lot.packed))
    to = f" It went to {listed(went)}." if went else ""
    more = grams_words(-lot.grams_left, reading.units)
    return f"{more} more of lot {lot.lot.code} went out than its weights say.{to}"
