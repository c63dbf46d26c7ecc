"""The cold store: which lots are in it, oldest first, until when they are good, and what became of the rest."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.wanted import crop_names
from logbook.actions.packs.drawing import in_store
from logbook.actions.packs.held import held_lot
from logbook.actions.reading import Reading
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.packs.lots import LotNow
from logbook.growing.table import Column
from logbook.store.reads.cold import read_cuts
from logbook.store.reads.orders import read_customers, read_mixes

PAST = timedelta(days=30)
"""What is past its best before is shown for so long, so that it is taken out."""


@dataclass(frozen=True, slots=True)
class ColdLot:
    """A lot with what is left of it; weights are cut grams."""

    keys: ClassVar = """
        lot=code crop packed_on=now.lot.packed_on best_before=now.lot.best_before on_hold past
        left_grams=now.grams_left in_grams=now.grams_in despatched_grams=now.grams_despatched
        mixed_grams=now.grams_mixed waste_grams=now.grams_waste own_use_grams=now.grams_own
    """

    crop: str
    now: LotNow
    on_hold: str
    """What it is held by, and why; empty where it may go out."""
    past: bool
    """Whether it is past its best before."""
    customers: tuple[str, ...]
    """Who got some of it, also who is a customer no more."""

    @property
    def code(self) -> str:
        """Its code."""
        return self.now.lot.code

    @property
    def state(self) -> str:
        """Why it may not go out, in a word; '' where it may."""
        return "on hold" if self.on_hold else "past" if self.past else ""


@dataclass(frozen=True, slots=True)
class ColdStore:
    """What is in the cold store, what is to go out first on top."""

    lots: tuple[ColdLot, ...]
    no_lot_grams: float
    """What was cut in the last days and is in no lot, as before lots were kept."""


def cold_store(book: Book) -> ColdStore:
    """What is left of the lots of the last weeks."""
    with book.reading() as reading:
        lots = in_store(reading, reading.today - PAST)
        week = reading.now - timedelta(days=7)
        loose = sum(grams for _, _, _, grams in read_cuts(reading, week))
        return ColdStore(tuple(_views(reading, lots)), loose)


def _views(reading: Reading, lots: list[LotNow]) -> list[ColdLot]:
    crops = crop_names(reading)
    mixes = {mix.id: mix.name for mix in read_mixes(reading)}
    names = {each.id: each.name for each in read_customers(reading)}
    found = []
    for each in lots:
        name = mixes[each.lot.mix] if each.lot.mix else crops[each.lot.template or 0]
        held = held_lot(reading, each)
        past = each.lot.best_before < reading.today
        got = dict.fromkeys(names[packed.customer] for packed in each.packed)
        found.append(ColdLot(name, each, held.words if held else "", past, tuple(got)))
    return found


def cold_columns(units: Units, today: date) -> list[Column[ColdLot]]:
    """The lots in columns."""

    def weight(grams: float) -> str:
        return grams_words(grams, units) if grams else ""

    def until(lot: ColdLot) -> str:
        day = day_words(lot.now.lot.best_before, today)
        return f"{lot.state}, {day}" if lot.state else day

    return [
        Column("lot", lambda each: each.code, right=False),
        Column("crop", lambda each: each.crop, right=False),
        Column("left", lambda each: grams_words(each.now.grams_left, units)),
        Column("best before", until, right=False),
        Column("in", lambda each: weight(each.now.grams_in), spare=1),
        Column("despatched", lambda each: weight(each.now.grams_despatched), spare=2),
        Column("mixed", lambda each: weight(each.now.grams_mixed), spare=3),
        Column("waste", lambda each: weight(each.now.grams_waste), spare=3),
        Column("own use", lambda each: weight(each.now.grams_own), spare=3),
    ]
