"""A recall in lines, for the screen and the command."""

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.growing.cautions import LAST_WORD, words_of
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.recall.recall import CalledCustomer, CalledLot, CalledPacks, Recall
from logbook.growing.table import Column
from logbook.store.rows import grouped
from logbook.text import plural

LEAST = 0.5
"""Grams: less is only the rounding of a sum."""


@dataclass(frozen=True, slots=True)
class RecallLine:
    """A line of a recall, and whether it wants somebody; a head is one without an indent."""

    text: str
    wants: bool = False
    of: CalledCustomer | CalledPacks | CalledLot | None = None
    """Whom it calls, the packs that they got, or the lot that it names."""


def recall_lines(found: Recall, units: Units) -> Iterator[RecallLine]:
    """Whom to call, then what is in the cold store and what grows, then what the book doesn't know."""
    packs = sum(each.packs for each in found.customers)
    whole = sum(each.grams for each in found.customers)
    called = sum(
        (each.grams or 0.0) * each.share for one in found.customers for each in one.deliveries
    )
    grams = grams_words(whole, units)
    if whole - called > LEAST:
        grams += f"; {grams_words(called, units)} of that is of {found.name}"
    who = plural(len(found.customers), "customer")
    yield RecallLine(
        f"Call {who}: {plural(packs, 'pack')}, {grams}"
        if packs
        else "No customer got any of it, as far as the book knows."
    )
    for customer in found.customers:
        yield RecallLine(f"  {_customer(customer)}", wants=True, of=customer)
        for each in customer.deliveries:
            mixed = "" if each.pure else f", {each.sure}"
            yield RecallLine(f"    {each.words(units)}{mixed}", of=each)
    yield from _cold(found, units)
    yield from _growing(found)
    if found.grams_waste > LEAST:
        yield RecallLine(f"Discarded: {grams_words(found.grams_waste, units)}")
    if found.grams_unaccounted > LEAST:
        yield RecallLine(
            f"In no pack lot: {grams_words(found.grams_unaccounted, units)}; the book doesn't know "
            "where it went.",
            wants=True,
        )
    if found.may_have_got:
        yield RecallLine("May have got some of that: packs from no pack lot")
    yield from (RecallLine(f"  {each.words}", wants=True) for each in found.may_have_got)


def _customer(customer: CalledCustomer) -> str:
    return f"{customer.name}: {customer.contact or 'no contact written'}"


def _cold(found: Recall, units: Units) -> Iterator[RecallLine]:
    if found.cold:
        yield RecallLine("In the cold store")
    for lot in found.cold:
        yield RecallLine(f"  {_lot(lot, units)}", wants=not lot.on_hold, of=lot)


def _lot(lot: CalledLot, units: Units) -> str:
    held = "on hold" if lot.on_hold else "not on hold"
    return f"{lot.code}, {lot.crop}, packed {day_words(lot.packed_on)}: {grams_words(lot.grams_stock, units)}, {held}"


def _growing(found: Recall) -> Iterator[RecallLine]:
    if found.trays:
        yield RecallLine("Still growing or planned")
    alike = grouped(
        ((tray.crop, tray.place or "no place", bool(tray.held)), tray) for tray in found.trays
    )
    for (crop, place, held), trays in alike.items():
        numbers = numbers_words(tray.number for tray in trays)
        said = "on hold" if held else "not on hold"
        yield RecallLine(f"  {numbers}, {crop}, {place}, {said}", wants=not held)


def packs_columns(units: Units) -> tuple[Column[CalledPacks], ...]:
    """Packs that a customer got, in columns."""
    return (
        Column("lot", lambda one: one.lot.code, right=False),
        Column("crop", lambda one: one.lot.crop, right=False),
        Column("packs", lambda one: f"{one.packs}"),
        Column("weight", lambda one: "" if one.grams is None else grams_words(one.grams, units)),
        Column("of it", lambda one: one.sure.removeprefix("about ").removesuffix(" of it")),
        Column("delivered", lambda one: day_words(one.day), right=False),
        Column("best before", lambda one: day_words(one.lot.best_before), right=False, spare=1),
    )


def cautions() -> tuple[str, ...]:
    """What is said under every recall."""
    return (*words_of("holds and recalls"), LAST_WORD)
