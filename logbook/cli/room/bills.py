"""`logbook bills`: what light costs."""

import click

from logbook.actions.book import Book
from logbook.actions.room.bill_tables import batch_columns, circuit_columns, shelf_columns
from logbook.actions.room.bills import BatchBill, Bills, batch_bill, no_one_words
from logbook.actions.room.bills import bills as find
from logbook.cli.arguments import BATCH
from logbook.cli.printing import book_answers, tell, width
from logbook.growing.measures import Units, grams_words
from logbook.growing.table import table
from logbook.text import plural


@click.command()
@click.option("--days", default=30, show_default=True, help="How many days back.")
@click.option("--batch", type=BATCH, help="Only this batch.")
@book_answers("logbook.actions.room.bills:Bills", "logbook.actions.room.bills:BatchBill")
def bills(book: Book, days: int, batch: int | None) -> None:
    """Show what light costs: by shelf, tray-day and batch, from the hours really lit."""
    if batch is not None:
        one = batch_bill(book, batch)
        tell(one, [_batch_words(one, book.units)])
        return
    found = find(book, days)
    tell(found, _bill_lines(found, book))


def _bill_lines(found: Bills, book: Book) -> list[str]:
    money = found.money
    price = found.tariff.words if found.tariff else "no tariff yet: `logbook tariff 0.30`"
    lines = [
        *filter(None, (found.money.unset_words if found.tariff else "",)),
        f"A whole day: {found.today.words(money)}; {price}",
        f"Last {plural(found.days, 'day')}, until now: {found.period.words(money)}",
        *filter(None, (no_one_words(found.over_no_one, money),)),
    ]
    lost = [(shelf, no_one_words(shelf.over_no_one, money)) for shelf in found.shelves]
    tables = (
        table(shelf_columns(money), found.shelves, width()).lines,
        [f"{shelf.place.path} {words}" for shelf, words in lost if words],
        table(circuit_columns(), found.circuits, width()).lines,
        [
            f"{one.name}: {each}"
            for one in found.circuits
            for each in (one.load.words, *one.notices)
        ],
        table(batch_columns(money, book.units), found.batches, width()).lines,
        [
            f"batch {one.batch}: {one.unmeasured_words}"
            for one in found.batches
            if one.unmeasured_words
        ],
    )
    for each in tables:
        lines += ["", *each] if each else []
    return lines


def _batch_words(one: BatchBill, units: Units) -> str:
    parts = [
        f"batch {one.batch}, {one.crop}, {plural(one.trays, 'tray')}: {one.use.words(one.money)}"
    ]
    if one.grams:
        parts.append(grams_words(one.grams, units))
    parts += [
        one.worth.cost_words(one.money, units),
        *one.worth.yield_words(units),
        one.growing_words,
    ]
    if one.use.unknown_hours >= 1:
        parts.append("some of its lit hours were before any lamps were entered")
    return ", ".join(filter(None, [*parts, one.unmeasured_words]))
