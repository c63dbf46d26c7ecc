"""The seed lots of the room: what was bought of each, what is left."""

from collections.abc import Collection
from datetime import timedelta

from logbook.actions.reading import Reading
from logbook.growing.crops.seed_lots import plain
from logbook.growing.seed.bags import LotStock
from logbook.store.reads.lots import first_batch_since, newest_batches, read_recent_lots
from logbook.store.reads.seed import (
    read_bag_names,
    read_bags,
    read_counts,
    read_draws,
    read_seed_weights,
)
from logbook.store.rows import grouped
from logbook.text import Refused, listed, nearest

RECENT = 12
FORGOTTEN = timedelta(days=400)
"""A lot to which nothing happened for so long counts as no stock."""


def lots_in_stock(
    reading: Reading, crop: str = "", *, every: bool = False, only: Collection[str] = ()
) -> list[LotStock]:
    """Lots of which a bag, a weight or a count is known, then those sown from last (or `every` one).

    With `crop` those alone that a bag of it was bought of; with `only` those lots alone. Lots to which
    nothing happened for FORGOTTEN are left out but for these and `every` one.
    """
    bags = grouped((plain(each.lot), each) for each in read_bags(reading))
    counts = grouped((plain(each.lot), each) for each in read_counts(reading))
    weights = grouped((plain(each.lot), each) for each in read_seed_weights(reading))
    last = newest_batches(reading)
    sown = grouped((plain(name), name) for name in sorted(last, key=lambda name: -last[name]))
    wanted = list(dict.fromkeys((*bags, *counts, *weights)))
    if crop:
        wanted = [
            each for each in bags if LotStock("", reading.zone, tuple(bags[each])).is_of(crop)
        ]
    elif only:
        wanted = list(dict.fromkeys(map(plain, only)))
    else:
        more = sown if every else map(plain, read_recent_lots(reading, RECENT))
        wanted = list(dict.fromkeys((*wanted, *more)))
    if not every and not only:
        since = reading.now - FORGOTTEN
        first = first_batch_since(reading, since)
        wanted = [
            each
            for each in wanted
            if any(last[name] >= first for name in sown.get(each, ()))
            or any(bag.at >= since for bag in bags.get(each, ()))
            or any(one.at >= since for of in (counts, weights) for one in of.get(each, ()))
        ]
    draws = read_draws(reading, {name for each in wanted for name in sown.get(each, ())})
    drawn = grouped((plain(name), draw) for name, each in draws.items() for draw in each)
    found = []
    for key in wanted:
        spelled = [each.lot for of in (bags, counts, weights) for each in of.get(key, ())]
        names = spelled + sown.get(key, [])
        if names:
            taken = sorted(drawn.get(key, ()), key=lambda draw: draw.at)
            found.append(
                LotStock(
                    names[0], reading.zone, tuple(bags.get(key, ())), tuple(counts.get(key, ())),
                    tuple(weights.get(key, ())), tuple(taken),
                )
            )  # fmt: skip
    return found


def lot_in_stock(reading: Reading, lot: str) -> LotStock:
    """One lot by its name, in any spelling; Refused for one that was neither bought nor sown."""
    found = lots_in_stock(reading, only=[lot])
    if not found:
        raise Refused(f'There is no seed lot "{lot.strip()[:40]}".{_hint(reading, lot)}', "lot")
    return found[0]


def _hint(reading: Reading, lot: str) -> str:
    lots = list(dict.fromkeys((*read_bag_names(reading), *read_recent_lots(reading, RECENT))))
    return nearest(lot, lots) or (f" The newest: {listed(lots, 8)}." if lots else "")
