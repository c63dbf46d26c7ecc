"""What the seed of batches cost, by the bags that it was drawn from."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.growing.crops.seed_lots import drawn_of, plain
from logbook.growing.currencies import exact
from logbook.growing.seed.bag_prices import draw_costs
from logbook.growing.yields.trays import GoneTray
from logbook.store.reads.costs import count_trays
from logbook.store.reads.lots import read_lots
from logbook.store.reads.seed import read_bags
from logbook.store.rows import grouped


def seed_costs(reading: Reading, batches: Mapping[int, Sequence[GoneTray]]) -> dict[int, Decimal]:
    """The cost of these trays' seed by batch, of those all of whose lots and prices are known."""
    prices = grouped((plain(bag.lot), bag.price_per_kg) for bag in read_bags(reading))
    if not prices:
        return {}
    lots = {
        batch: each
        for batch, each in read_lots(reading, batches).items()
        if all(plain(one.lot) in prices for one in each)
    }
    sown = count_trays(reading, lots)
    several = {
        plain(one.lot) for each in lots.values() for one in each
        if len(set(prices[plain(one.lot)])) > 1
    }  # fmt: skip
    drawn = _drawn(reading, several)
    found = {}
    for batch, mine in lots.items():
        per_tray = batches[batch][0].seed_grams
        whole = None if per_tray is None else per_tray * sown[batch]
        parts = [
            drawn.get((plain(lot.lot), batch))
            if plain(lot.lot) in several
            else _times(grams, prices[plain(lot.lot)][0])
            for lot, grams in zip(mine, drawn_of(mine, whole), strict=True)
        ]
        if (cost := _sum(parts)) is not None:
            found[batch] = cost * len(batches[batch]) / sown[batch]
    return found


def _drawn(reading: Reading, lots: set[str]) -> dict[tuple[str, int], Decimal | None]:
    """What batches drew from lots, by lot and batch."""
    costs = grouped(
        ((plain(stock.lot), draw.batch_id), cost)
        for stock in (lots_in_stock(reading, only=lots) if lots else ())
        for draw, cost in zip(stock.draws, draw_costs(stock), strict=True)
    )
    return {key: _sum(each) for key, each in costs.items()}


def _times(grams: float | None, per_kg: Decimal | None) -> Decimal | None:
    return None if grams is None or per_kg is None else per_kg * exact(grams) / 1000


def _sum(parts: Iterable[Decimal | None]) -> Decimal | None:
    every = list(parts)
    known = [each for each in every if each is not None]
    return sum(known, Decimal(0)) if len(known) == len(every) else None
