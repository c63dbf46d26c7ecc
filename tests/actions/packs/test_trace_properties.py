"""Whatever is cut, packed, put right and taken back: nothing is lost, and both ways say the same."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from logbook.actions.book import Book
from logbook.actions.packs.trace import TraceView, trace
from logbook.actions.recall.recalling import recall
from logbook.actions.trays.replacement import Changes
from logbook.actions.trays.replacing import replace_entry
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import strike, undo
from logbook.actions.trays.weighing import weigh
from logbook.actions.yields.sold import sold_of_trays
from logbook.growing.yields.sold import Sold
from logbook.store.rows import grouped
from logbook.text import Refused
from tests.actions.packs.gone_out import despatch, lot_ids, mixed, take_out
from tests.room import field_test

LOTS = ("RA 1", "RA 2", "RA 1 = 30 g + RA 2 = 10 g")
ACTS = (
    "sow",
    "weigh",
    "part",
    "reweigh",
    "other lot",
    "strike",
    "undo",
    "despatch",
    "waste",
    "return",
    "mix",
)
Step = tuple[str, int, int]
STEPS = st.lists(
    st.tuples(st.sampled_from(ACTS), st.integers(0, 11), st.integers(0, 40)),
    min_size=8,
    max_size=20,
)


def do(book: Book, step: Step) -> None:
    """Do what the step asks for; `which` picks what it is done to, `much` the weight."""
    act, which, much = step
    codes, grams, at = list(lot_ids(book)), 20.0 * much, book.now() - timedelta(days=9)
    code = codes[which % len(codes)] if codes else ""
    match act:
        case "sow":
            sow(book, SowDraft("field test", 1 + which % 2, lot=LOTS[which % 3], at=at))
        case "weigh" | "part":
            weigh(book, [101 + which % 6], grams, part=act == "part")
        case "reweigh":
            replace_entry(book, entry_of(book, "weigh", which), "misread", Changes(grams=grams))
        case "other lot":
            replace_entry(
                book, entry_of(book, "sow", which), "misread", Changes(lot=LOTS[much % 3])
            )
        case "strike":
            strike(book, entry_of(book, ("weigh", "pack")[much % 2], which), "not so")
        case "undo":
            undo(book)
        case "despatch":
            despatch(book, f"Customer {which % 3}", {code: grams})
        case "waste":
            take_out(book, code, grams, ("waste", "own use")[which % 2])
        case "return":
            take_out(book, code, grams, "returned", f"Customer {which % 3}")
        case "mix":
            mixed(book, "mild", {code: grams}, field_test())


def entry_of(book: Book, kind: str, which: int) -> int:
    """One of the entries of a kind, struck ones too."""
    with book.reading() as reading:
        found = [entry for (entry,) in reading.rows("SELECT id FROM entry WHERE kind = ?", (kind,))]
    if not found:
        raise Refused("There is none.")
    return int(found[which % len(found)])


def every_trace(book: Book) -> dict[str, TraceView]:
    """The traces of all that the book has a name for."""
    with book.reading() as reading:
        batches = [f"b{batch}" for (batch,) in reading.rows("SELECT DISTINCT batch_id FROM tray")]
        days = reading.rows(
            "SELECT DISTINCT c.name, p.day FROM packed p JOIN customer c ON c.customer_id = p.customer_id"
        )
    names = ("RA 1", "RA 2", *batches, *lot_ids(book), *(f"{name}@{day}" for name, day in days))
    found = {}
    for name in names:
        try:
            found[name] = trace(book, name)
        except Refused:
            continue
    return found


def sold_of_batch(book: Book, batch: int) -> Sold:
    """What the yields say of all of a batch's trays together."""
    with book.reading() as reading:
        rows = reading.rows("SELECT id FROM tray WHERE batch_id = ?", (batch,))
        told = sold_of_trays(reading, [tray for (tray,) in rows], reading.now)
        return sum(told.values(), Sold())


def grams_between(found: TraceView, way: str) -> dict[tuple[str, str], float]:
    """The grams of each step of a way, by its kind and name."""
    grams: dict[tuple[str, str], float] = {}
    for step in found.back if way == "back" else found.forward:
        key = step.what, f"{step.code}@{step.day}" if step.what == "delivery" else step.code
        grams[key] = grams.get(key, 0.0) + step.grams
    return grams


@settings(
    max_examples=5, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(steps=STEPS)
def test_grams_add_up_and_both_ways_mirror_each_other(
    new_book: Callable[[], Book], steps: list[Step]
) -> None:
    book = new_book()
    for step in (("sow", 0, 0), ("sow", 1, 0), ("weigh", 0, 20), ("weigh", 1, 10), *steps):
        try:
            do(book, step)
        except Refused:
            continue
    traces = every_trace(book)
    for name, found in traces.items():
        out = found.grams_out + found.grams_stock + found.grams_waste + found.grams_unaccounted
        assert out == pytest.approx(found.grams_in, abs=1e-3), name
        assert sum(each.grams for each in found.customers) <= found.grams_out + 1e-3
        got = grouped(
            ((one.name, packs.day), packs.called_grams)
            for one in recall(book, name).customers
            for packs in one.deliveries
        )
        told = {(each.customer, each.day): each.grams for each in found.customers}
        assert {key: sum(grams) for key, grams in got.items()} == pytest.approx(told, abs=1e-3), (
            name
        )
        if name.startswith("b"):
            sold = sold_of_batch(book, int(name[1:]))
            assert sold.sold == pytest.approx(sum(each.grams for each in found.customers), abs=1e-3)
            assert sold.wasted == pytest.approx(found.grams_waste, abs=1e-3)
    what = {"customer": "delivery"}
    for name, found in traces.items():
        root = what.get(found.root.what, found.root.what), found.root.code
        for other in (each for each in traces.values() if each is not found):
            key = what.get(other.root.what, other.root.what), other.root.code
            onward = grams_between(found, "forward").get(key)
            came = grams_between(other, "back").get(root)
            assert onward == pytest.approx(came, abs=1e-3), (name, other.root.code)
