"""A recall as it is read from the book, and one that was made or practised, as it is kept."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from logbook.actions.book import Book
from logbook.actions.orders.wanted import crop_names
from logbook.actions.packs.held import held_lot
from logbook.actions.packs.may_have_got import may_have_got
from logbook.actions.packs.way import Way, way_around
from logbook.actions.reading import Reading
from logbook.actions.recall.codes import SHELF_DAYS, called_back
from logbook.actions.trays.done import Done, done_of
from logbook.growing.packs.flow import Followed, Node
from logbook.growing.packs.lots import LotPacked, PackLot
from logbook.growing.recall.recall import (
    CalledCustomer,
    CalledLot,
    CalledPacks,
    KeptRecall,
    Recall,
)
from logbook.store.reads.orders import read_customers, read_mixes
from logbook.store.reads.packs import read_lots_now
from logbook.store.reads.recalls import read_recalls
from logbook.store.rows import grouped
from logbook.text import Refused

MOST_DAYS = 366
LONGEST = timedelta(days=30)
"""A recall that took longer than this is mistyped."""


def recall(book: Book, code: str, days: int = SHELF_DAYS) -> Recall:
    """Whom to call, what is in the cold store and what grows of a code; of a shelf what stood there in so many days.

    Nothing is written. Raises Refused where the book knows nothing by that name.
    """
    with book.reading() as reading:
        return recall_of(reading, code, days)


def recall_of(reading: Reading, code: str, days: int = SHELF_DAYS) -> Recall:
    """As recall(), of one reading."""
    if not 1 <= days <= MOST_DAYS:
        raise Refused(f"{days} days back? Give 1 to {MOST_DAYS}.", "days")
    found = called_back(reading, code, days)
    way = way_around(reading, found.nodes)
    forward = way.flow.forward(found.nodes)
    gone = [node.id for node in forward.grams if node.what == "delivery"]
    reached = {
        *_ids(forward.grams, "pack lot"), *(each[1] for each in gone if isinstance(each, tuple)),
    }  # fmt: skip
    lots = {
        each.id: each
        for each in _lots(reading, {lot: way.lots[lot] for lot in reached & way.lots.keys()})
    }
    trays = [way.trays[tray] for tray in _ids(forward.grams, "tray") if tray in way.trays]
    growing = reading.folded([each for each in trays if each.live])
    return Recall(
        found.name,
        reading.now,
        _customers(reading, way, forward, lots),
        tuple(sorted(lots.values(), key=lambda lot: (lot.packed_on, lot.code))),
        tuple(sorted((each for each in growing if each.state.live), key=lambda one: one.number)),
        forward.grams_in,
        forward.sum("delivery", "own use"),
        forward.sum("stock"),
        forward.sum("waste"),
        forward.sum("unaccounted"),
        tuple(may_have_got(reading, way, forward.grams)),
    )


def _ids(nodes: Iterable[Node], what: str) -> list[int]:
    return [node.id for node in nodes if node.what == what and isinstance(node.id, int)]


def _lots(reading: Reading, lots: Mapping[int, PackLot]) -> Iterator[CalledLot]:
    crops = crop_names(reading)
    mixes = {mix.id: mix.name for mix in read_mixes(reading)}
    for each in read_lots_now(reading, lots):
        lot, hold = each.lot, held_lot(reading, each)
        yield CalledLot(
            lot.id, lot.code, crops.get(lot.template or 0) or mixes.get(lot.mix or 0, ""),
            lot.packed_on, lot.best_before, each.grams_despatched, max(0.0, each.grams_left),
            hold.words if hold else "",
        )  # fmt: skip


def _customers(
    reading: Reading, way: Way, forward: Followed, lots: dict[int, CalledLot]
) -> tuple[CalledCustomer, ...]:
    """Who got some, by the same walk as a trace."""
    known = {each.id: each for each in read_customers(reading)}

    def got(packed: LotPacked) -> CalledPacks:
        node = Node("delivery", (packed.entry, packed.lot))
        called, whole = forward.grams[node], way.flow.total(node)
        return CalledPacks(
            lots[packed.lot], packed.day, packed.packs, packed.grams, called,
            called / whole if whole else 1.0,
        )  # fmt: skip

    every = grouped(
        (one.customer, got(one))
        for key, one in way.packed.items()
        if one.lot in lots and Node("delivery", key) in forward.grams
    )
    return tuple(
        sorted(
            (
                CalledCustomer(known[customer].name, known[customer].contact, tuple(packs))
                for customer, packs in every.items()
                if customer in known
            ),
            key=lambda each: (-each.grams, each.name),
        )
    )


@dataclass(frozen=True, slots=True)
class RecallDraft:
    """A recall to be kept: what it began at, since when it took, whether it was practice."""

    code: str
    begun: datetime
    practice: bool = True
    note: str = ""
    days: int = SHELF_DAYS


def keep_recall(book: Book, draft: RecallDraft) -> Done:
    """Keep a recall that was made or practised, with how long it took until now; undo takes it back."""
    with book.writing() as act:
        reading = act.reading
        if not timedelta() <= reading.now - draft.begun <= LONGEST:
            raise Refused(f"Begun {reading.when(draft.begun)}? Give how long it took.", "took")
        found = recall_of(reading, draft.code, draft.days)
        grams = sum(each.grams for each in found.customers)
        entry = act.entry("recall", (), act.now, note=draft.note)
        act.put(
            "recall", entry, code=found.name, practice=draft.practice, begun=draft.begun,
            customers=len(found.customers), lots=len(found.lots), grams=round(grams, 1),
            unaccounted_grams=round(max(0.0, found.grams_unaccounted), 1),
        )  # fmt: skip
        (kept,) = [each for each in read_recalls(act.reading) if each.entry == entry]
        return done_of(act, kept.words(reading.units), ())


@dataclass(frozen=True, slots=True)
class Recalls:
    """The recalls that were made or practised, the newest first."""

    recalls: tuple[KeptRecall, ...]


def list_recalls(book: Book) -> Recalls:
    """The recalls that were kept."""
    with book.reading() as reading:
        return Recalls(tuple(read_recalls(reading)[::-1]))
