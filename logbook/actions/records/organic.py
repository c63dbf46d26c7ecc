"""Organic seed and lots over some days: what was there, what came, what went, what is left."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime

from logbook.actions.book import Book
from logbook.actions.orders.wanted import crop_names
from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.actions.yields.listing import Span, bounds
from logbook.growing.crops.seed_lots import plain
from logbook.growing.days import day_bounds
from logbook.growing.records.organic import LotBalance, Organic, SeedBalance
from logbook.growing.seed.bags import LotStock
from logbook.store.reads.lots import read_lots as seed_lots_of
from logbook.store.reads.orders import read_mixes
from logbook.store.reads.packs import read_cuts, read_lots_now, read_lots_since
from logbook.store.rows import grouped


def organic(book: Book, span: Span = Span()) -> Organic:  # noqa: B008 - it is frozen
    """The mass balance of a span: organic seed, and pack lots that were packed in it."""
    with book.reading() as reading:
        since, until, start, end = bounds(reading, span)
        every = lots_in_stock(reading, every=True)
        own = [each for each in every if each.newest is not None and each.newest.organic]
        about = reading.about
        return Organic(
            since, until, reading.today, about.certificate, about.certified_until,
            tuple(_seed(each, start, end) for each in own if _moved(each, start, end)),
            tuple(_lots(reading, since, until, {plain(each.lot) for each in own})),
        )  # fmt: skip


def _until(stock: LotStock, at: datetime) -> LotStock:
    """A lot as it was at a moment."""
    return replace(
        stock,
        bags=tuple(bag for bag in stock.bags if day_bounds(bag.bought, stock.zone)[0] < at),
        draws=tuple(draw for draw in stock.draws if draw.at < at),
        weights=tuple(each for each in stock.weights if each.at < at),
    )


def _moved(stock: LotStock, start: datetime, end: datetime) -> bool:
    """Whether some was there or came or went."""
    before, after = _until(stock, start), _until(stock, end)
    return before != after or bool(before.left_grams)


def _seed(stock: LotStock, start: datetime, end: datetime) -> SeedBalance:
    before, after = _until(stock, start), _until(stock, end)
    known = before.left_grams if before.bags or before.weights else 0.0
    return SeedBalance(
        stock.lot, stock.crop, known,
        (after.bought_grams or 0.0) - (before.bought_grams or 0.0),
        after.drawn_grams - before.drawn_grams, after.left_grams,
    )  # fmt: skip


def _lots(
    reading: Reading, since: date, until: date, organic_seed: set[str]
) -> Iterable[LotBalance]:
    """Pack lots of these days into which organic seed went, the oldest first."""
    lots = {
        each.id: each
        for each in read_lots_since(reading, since).values()
        if each.packed_on <= until
    }
    now = read_lots_now(reading, lots)
    before = {part.source for each in now for part in each.parts} - lots.keys()
    cuts = [*read_cuts(reading, before), *(cut for each in now for cut in each.cuts)]
    sown = seed_lots_of(reading, {cut.batch for cut in cuts})
    pure = {
        batch: bool(names) and {plain(each.lot) for each in names} <= organic_seed
        for batch, names in sown.items()
    }
    kinds = grouped((cut.lot, pure.get(cut.batch, False)) for cut in cuts)
    crops, mixes = crop_names(reading), {each.id: each.name for each in read_mixes(reading)}
    for each in now:
        mixed = (all(kinds.get(part.source, [False])) for part in each.parts)
        told = [*kinds.get(each.lot.id, ()), *mixed]
        if any(told):
            name = crops.get(each.lot.template or 0) or mixes.get(each.lot.mix or 0, "")
            yield LotBalance(
                each.lot.code, name, each.lot.packed_on, each.grams_in, each.grams_despatched,
                each.grams_mixed, each.grams_own, each.grams_waste, all(told),
            )  # fmt: skip
