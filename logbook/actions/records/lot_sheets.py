"""The traceability rule's sheets of lots made and shipped over some days."""

from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.wanted import crop_names
from logbook.actions.reading import Reading
from logbook.actions.seed.stock import lots_in_stock
from logbook.actions.yields.listing import Span, bounds
from logbook.growing.crops.seed_lots import plain
from logbook.growing.days import day_of
from logbook.growing.orders.customer import Customer
from logbook.growing.packs.lots import LotCut, LotPart, PackLot
from logbook.growing.records.lot_events import EVENTS, EventSheet, LotEvent, cells_of
from logbook.growing.seed.bags import LotStock
from logbook.store.reads.book import About
from logbook.store.reads.lots import read_lots as seed_lots_of
from logbook.store.reads.orders import read_customers, read_mixes, read_packed
from logbook.store.reads.packs import (
    LONGEST_KEEPING,
    read_cuts,
    read_lot_packed,
    read_lots,
    read_lots_since,
    read_parts,
)
from logbook.store.reads.templates import read_templates
from logbook.store.reads.trays import read_trays
from logbook.store.rows import grouped

ENTRY = "logbook entry"
"""The type of the reference document: the entry in this book, whose number is its number."""


@dataclass(frozen=True, slots=True)
class LotSheet:
    """A sheet: heads in the rule's words, a row for each event, '' for what is not known."""

    keys: ClassVar = "event=sheet.name section=sheet.section since until heads rows blanks"

    sheet: EventSheet
    since: date
    until: date
    rows: tuple[tuple[str, ...], ...]

    @property
    def heads(self) -> tuple[str, ...]:
        """The rule's names of the elements."""
        return tuple(element.head for element in self.sheet.elements)

    @property
    def blanks(self) -> tuple[str, ...]:
        """Elements that are blank in every row, where there are rows."""
        columns = zip(self.heads, zip(*self.rows, strict=True), strict=True) if self.rows else ()
        return tuple(head for head, cells in columns if not any(cells))


def lot_sheet(book: Book, event: str, span: Span = Span()) -> LotSheet:  # noqa: B008 - it is frozen
    """The sheet of an event (a name of EVENTS) over a span of days."""
    return every_sheet(book, span, (event,))[0]


def every_sheet(book: Book, span: Span, events: Collection[str] = EVENTS) -> list[LotSheet]:
    """All sheets of a span, or those of some events."""
    with book.reading() as reading:
        since, until, _, _ = bounds(reading, span)
        told = _Told(reading, since, until)
        found = {make: tuple(make(told)) for make in {_MAKE[event] for event in events}}
        sheets = ((EVENTS[event], found[_MAKE[event]]) for event in events)
        return [
            LotSheet(sheet, since, until, tuple(cells_of(sheet, each) for each in lots))
            for sheet, lots in sheets
        ]


def location(about: About) -> str:
    """The maker's business name, phone and address; '' where no name is known."""
    parts = (about.maker, about.phone, about.address)
    return ", ".join(filter(None, parts)) if about.maker else ""


class _Told:
    """What the book knows of the lots of some days."""

    def __init__(self, reading: Reading, since: date, until: date) -> None:
        self.reading, self.since, self.until = reading, since, until
        self.here = location(reading.about)
        early = since - LONGEST_KEEPING
        self.lots = dict(read_lots_since(reading, early))
        self.crops = {each.id: each.template for each in read_templates(reading)}
        self.names = crop_names(reading)
        self.mixes = {each.id: each.name for each in read_mixes(reading)}

    def made(self) -> dict[int, PackLot]:
        """The lots packed on these days."""
        return {
            lot.id: lot for lot in self.lots.values() if self.since <= lot.packed_on <= self.until
        }

    def of(self, lot: PackLot) -> LotEvent:
        """What is said of a lot in every event."""
        crop = self.crops.get(lot.template or 0)
        name = self.mixes.get(lot.mix or 0, "") if crop is None else crop.crop
        variety = "" if crop is None else crop.variety
        return LotEvent(
            lot=lot.code, commodity=name, variety=variety, description=f"{name} {variety}".strip(),
            packed_at=self.here, packed_on=lot.packed_on, document=ENTRY, document_number=lot.id,
        )  # fmt: skip

    def cut(self) -> Iterator[LotEvent]:
        """Cuts, those of one lot, batch and growing area together."""
        made, about = self.made(), self.reading.about
        cuts = read_cuts(self.reading, made)
        trays = {
            each.id: each
            for each in self.reading.folded(
                read_trays(self.reading, {cut.tray for cut in cuts})
            )
        }  # fmt: skip
        whole = _sums((cut.lot, cut.grams) for cut in cuts)
        harvester = ", ".join(filter(None, (about.maker, about.phone))) if about.maker else ""
        alike = grouped(((cut.lot, cut.batch, trays[cut.tray].place), cut) for cut in cuts)
        for (lot, _, area), several in alike.items():
            first: LotCut = several[0]
            yield replace(
                self.of(made[lot]), grams=sum(cut.grams for cut in several),
                packed_grams=whole[lot], farm=self.here, area=area, harvester=harvester,
                harvested_on=day_of(first.at, self.reading.zone), document_number=first.entry,
            )  # fmt: skip

    def seed(self) -> Iterator[LotEvent]:
        """The seed of lots: a line for each bag's lot that went into one."""
        made = self.made()
        cuts = read_cuts(self.reading, made)
        batches = grouped((cut.lot, cut.batch) for cut in cuts)
        sown = seed_lots_of(self.reading, {cut.batch for cut in cuts})
        stock = {plain(each.lot): each for each in lots_in_stock(self.reading, every=True)}
        for lot, own in batches.items():
            names = dict.fromkeys(
                one.lot for batch in dict.fromkeys(own) for one in sown.get(batch, ())
            )
            for name in names or [""]:
                yield _of_seed(self.of(made[lot]), name, stock.get(plain(name)))

    def shipped(self) -> Iterator[LotEvent]:
        """Packs that went out, by lot and customer; those of no known lot have a blank code."""
        customers = {each.id: each for each in read_customers(self.reading)}
        ticked = [each for each in read_packed(self.reading, self.since) if each.day <= self.until]
        drawn = grouped((out.entry, out) for out in read_lot_packed(self.reading, self.lots))
        for tick in ticked:
            to = LotEvent(
                recipient=_recipient(customers.get(tick.customer)), shipped_from=self.here,
                shipped_on=tick.day, document=ENTRY, document_number=tick.entry,
            )  # fmt: skip
            rest = tick.packs
            for out in drawn.get(tick.entry, ()):
                rest -= out.packs
                yield _sent(self.of(self.lots[out.lot]), to, out.packs, out.grams)
            if rest > 0:
                grams = None if tick.pack_grams is None else rest * tick.pack_grams
                name = self.mixes.get(tick.mix or 0) or self.names.get(tick.template or 0, "")
                yield _sent(LotEvent(description=name), to, rest, grams)

    def mixed(self) -> Iterator[LotEvent]:
        """Mixed lots, a line for each lot that they took of."""
        made = self.made()
        parts: list[LotPart] = read_parts(self.reading, made)
        used = self.lots | read_lots(self.reading, {part.source for part in parts})
        whole = _sums((part.lot, part.grams) for part in parts)
        for part in parts:
            of = self.of(used[part.source])
            yield replace(
                self.of(made[part.lot]), grams=part.grams, packed_grams=whole[part.lot],
                used_lot=of.lot, used_description=of.description,
            )  # fmt: skip


_MAKE: dict[str, Callable[[_Told], Iterable[LotEvent]]] = {
    "harvesting": _Told.cut, "cooling": _Told.cut, "packing": _Told.cut, "sprouts": _Told.seed,
    "shipping": _Told.shipped, "transformation": _Told.mixed,
}  # fmt: skip


def _sent(of: LotEvent, to: LotEvent, packs: int, grams: float | None) -> LotEvent:
    """A lot's event as it was sent to somebody."""
    return replace(
        to, lot=of.lot, description=of.description, packed_at=of.packed_at, packs=packs, grams=grams
    )


def _sums(pairs: Iterable[tuple[int, float]]) -> dict[int, float]:
    return {lot: sum(grams) for lot, grams in grouped(pairs).items()}


def _recipient(customer: Customer | None) -> str:
    return "" if customer is None else ", ".join(filter(None, (customer.name, customer.contact)))


def _of_seed(event: LotEvent, name: str, stock: LotStock | None) -> LotEvent:
    bag = None if stock is None else stock.newest
    if bag is None:
        return replace(event, seed_lot=name, document="", document_number=None)
    treated = {True: "treated", False: "untreated", None: ""}[bag.treated]
    return replace(
        event, seed_lot=name, seed_supplier=bag.supplier, seed_received_on=bag.bought,
        seed_description=", ".join(filter(None, (bag.crop, treated))), document_number=bag.entry,
    )  # fmt: skip
