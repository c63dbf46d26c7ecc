"""Whatever is cut, corrected, packed and taken out: grams into lots are what went out and what is left."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.orders.deliveries import list_deliveries
from logbook.actions.orders.mixes import put_mix
from logbook.actions.orders.ordering import OrderDraft, order
from logbook.actions.orders.packing import pack_for, unpack
from logbook.actions.packs.despatching import despatch
from logbook.actions.packs.withdrawing import pack_mix, take_back, take_out
from logbook.actions.trays.doing import did
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import redo, strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.growing.packs.lots import LEAST, LotNow
from logbook.store.reads.packs import read_lots, read_lots_now
from logbook.store.reads.trays import read_trays_where
from logbook.text import Refused
from tests.actions.room_book import moment, room_book, stand_at
from tests.made_once import made_once

WRITES = (
    "weigh",
    "weigh",
    "part",
    "again",
    "pack",
    "pack",
    "despatch",
    "out",
    "own",
    "back",
    "mix",
)
CORRECTS = ("grams", "trays", "strike", "undo", "redo", "unpack")


@dataclass(frozen=True)
class Deed:
    """Something that is tried; what does not fit is refused."""

    kind: str
    which: int
    grams: float


DEEDS = st.lists(
    st.builds(
        Deed, st.sampled_from((*WRITES, *CORRECTS)), st.integers(0, 11), st.sampled_from((40.0, 110.0, 250.5))
    ),
    min_size=4, max_size=20,
)  # fmt: skip


@made_once
def cutting_room(folder: Path) -> Book:
    """Four trays of radish and four of kale that may be cut, a mix, and two customers who want some."""
    book = room_book(folder)
    for crop in ("radish", "kale"):
        sow(book, SowDraft(crop, trays=4))
    did(book, "weight_off", list(range(101, 109)))
    did(book, "light_on", list(range(101, 109)))
    stand_at(book, moment(10))
    put_mix(book, "salad mix", "2 radish + 1 kale")
    for text in ("radish 4 x 50g tomorrow", "salad mix 3 x 100g tomorrow", "kale 2 x 80g tomorrow"):
        order(book, OrderDraft("Bistro", text))
    order(book, OrderDraft("Corner shop", "radish 3 x 100g tomorrow"))
    return book


def lots_of(book: Book) -> list[LotNow]:
    with book.reading() as reading:
        ids = [lot for (lot,) in reading.rows("SELECT DISTINCT lot_id FROM pack_lot")]
        return read_lots_now(reading, read_lots(reading, ids))


def try_it(book: Book, deed: Deed) -> None:
    lots, tray = lots_of(book), 101 + deed.which % 8
    lot = lots[deed.which % len(lots)] if lots else None
    code = lot.lot.code if lot else "none"
    cuts = [each.entry for one in lots for each in one.cuts]
    entry = cuts[deed.which % len(cuts)] if cuts else 0
    who = "Bistro" if deed.which % 3 else "Corner shop"
    match deed.kind:
        case "weigh":
            weigh(book, (tray,), deed.grams, lot="new" if deed.which == 7 else "")
        case "part":
            weigh(book, (tray, 101 + (deed.which + 1) % 8), deed.grams, part=True)
        case "again":
            weigh(book, (tray,), deed.grams, keep=True, lot=code if lot else "")
        case "pack":
            pack_for(book, who, ("radish", "salad", "kale", "")[deed.which % 4])
        case "despatch":
            despatch(book, who, code, f"{1 + deed.which % 3} x 50g")
        case "out" | "own":
            take_out(
                book,
                code,
                deed.grams if deed.which % 2 else None,
                "waste" if deed.kind == "out" else "own use",
            )
        case "back":
            take_back(book, who, code, deed.grams if deed.which % 2 else None)
        case "mix":
            pack_mix(book, "salad mix", deed.grams)
        case "grams":
            replace_entry(book, entry, "misread", Changes(grams=deed.grams))
        case "trays":
            replace_entry(book, entry, "another tray", Changes(numbers=(tray,)))
        case "strike":
            gone = cuts + [each.entry for one in lots for each in one.packed]
            gone += [each.entry for one in lots for each in one.outs]
            strike(book, gone[deed.which % len(gone)] if gone else 0, "a slip")
        case "undo":
            undo(book)
        case "redo":
            redo(book)
        case _:
            lines = [
                line.wish
                for view in list_deliveries(book).deliveries
                for each in view.customers
                for line in each.lines
            ]
            wish = lines[deed.which % len(lines)]
            unpack(book, wish.order.id, wish.day)


def adds_up(book: Book) -> None:
    """What trays gave, by their own fold, is what lots hold; it went out, was wasted, eaten or is left."""
    lots = lots_of(book)
    with book.reading() as reading:
        folded = reading.folded(read_trays_where(reading, "t.id > 0 OR t.id IN (ids)", [0]))
        cut = sum(tray.state.grams or 0.0 for tray in folded)
        got: dict[int, float] = dict(
            reading.rows("SELECT entry_id, packs * pack_grams FROM packed")
        )
    assert abs(sum(each.grams for one in lots for each in one.cuts) - cut) < 0.01
    gone = sum(one.grams_despatched + one.grams_waste + one.grams_own for one in lots)
    assert abs(cut - gone - sum(one.grams_left for one in lots)) < 0.01
    packed = dict[int, float]()
    for each in (packed for one in lots for packed in one.packed):
        packed[each.entry] = packed.get(each.entry, 0.0) + (each.grams or 0.0)
    assert all(grams <= got[entry] + LEAST for entry, grams in packed.items())


@given(deeds=DEEDS)
@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_grams_into_lots_are_what_went_out_and_what_is_left(
    tmp_path: Path, deeds: list[Deed]
) -> None:
    book = cutting_room(tmp_path)
    for deed in deeds:
        before = {one.lot.id: one.grams_left for one in lots_of(book)}
        try:
            try_it(book, deed)
        except Refused:
            continue
        adds_up(book)
        if deed.kind in WRITES:  # nothing new is taken of what isn't there
            for one in lots_of(book):
                assert one.grams_left >= min(0.0, before.get(one.lot.id, 0.0)) - LEAST
