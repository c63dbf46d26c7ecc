"""`logbook bills`: what light costs by shelf, tray-day and batch."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.arguments import BATCH
from logbook.cli.printing import book_answers, tell
from logbook.cli.room.lamps import circuit_lines, lamps_words
from logbook.growing.measures import grams_words
from logbook.text import plural

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.room.bills import BatchBill, Bills
    from logbook.growing.measures import Units


@click.command()
@click.option("--days", default=30, show_default=True, help="The period before now.")
@click.option("--batch", type=BATCH, help="Only this batch.")
@book_answers("logbook.actions.room.bills:Bills", "logbook.actions.room.bills:BatchBill")
def bills(book: Book, days: int, batch: int | None) -> None:
    """Show what light costs: by shelf, tray-day and batch, from the hours really lit."""
    from logbook.actions.room.bills import batch_bill
    from logbook.actions.room.bills import bills as find

    if batch is not None:
        one = batch_bill(book, batch)
        tell(one, [_batch_words(one, book.units)])
        return
    found = find(book, days)
    tell(found, _bill_lines(found, book))


def _bill_lines(found: Bills, book: Book) -> list[str]:
    price = found.tariff.words if found.tariff else "no tariff yet: `logbook tariff 0.30`"
    lines = [
        f"A whole day: {found.today.bill.words}; {price}",
        f"Last {plural(found.days, 'day')}, until now: {found.period.bill.words}",
    ]
    for shelf in found.shelves:
        lamps = lamps_words(shelf.lamps, book)
        lines.append(f"{shelf.place.path}: {lamps}, {shelf.place.hours_words}")
        if shelf.lamps is not None and shelf.lamps.lamps:
            each = shelf.cost_per_tray_today
            share = f", {each:.3f} a tray" if each is not None else ", no tray in the light"
            lines.append(f"  a whole day {shelf.today.bill.words}{share}")
            each = shelf.cost_per_tray_day
            if each is not None:
                lines.append(f"  {each:.3f} a tray-day in the period")
    lines += [_batch_words(one, book.units) for one in found.batches]
    for circuit_view in found.circuits:
        lines += circuit_lines(circuit_view)
    return lines


def _batch_words(one: BatchBill, units: Units) -> str:
    parts = [f"batch {one.batch}, {one.crop}, {plural(one.trays, 'tray')}: {one.use.bill.words}"]
    if one.grams:
        parts.append(grams_words(one.grams, units))
    parts += [one.worth.cost_words(units), *one.worth.yield_words(units), one.growing_words]
    if one.use.unknown_hours >= 1:
        parts.append("part of its lit hours fell before any lamps were written down")
    return ", ".join(filter(None, [*parts, one.unmeasured_words]))
