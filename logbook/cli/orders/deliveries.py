"""`logbook deliveries`: is there enough of what is promised, and what is packed?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from logbook.actions.book import Book
from logbook.cli.arguments import OF_ALL_AT
from logbook.cli.paper import COLUMNS, PAGE
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.text import plural

if TYPE_CHECKING:
    from logbook.actions.orders.deliveries import DeliveryView


@click.group(invoke_without_command=True)
@click.option("--days", default=14, show_default=True, help="How many days ahead.")
@book_answers("logbook.actions.orders.deliveries:Deliveries")
def deliveries(book: Book, days: int) -> None:
    """Show the deliveries to come: what is promised, ready and growing, and what is packed.

    A crop's chance is the chance that the cold store and what is cut by then are enough.
    """
    from logbook.actions.orders.deliveries import list_deliveries

    found = list_deliveries(book, days)
    tell(found, _words(book, found.deliveries, days))


def _words(book: Book, found: Sequence[DeliveryView], days: int) -> Iterator[str]:
    from logbook.actions.orders import delivery_words as words
    from logbook.growing.table import table

    if not found:
        yield f"No deliveries in the next {plural(days, 'day')}."
    full = words.FULL + sum(not each.crops for each in found)
    for at, each in enumerate(found):
        yield f"{book.when(each.ready_at)}  {words.head_words(each, book.units)}"
        if at < full:
            drawn = table(words.cover_columns(book.units), each.crops, width() - 2)
            yield from (f"  {line}" for line in drawn.lines)
            yield from words.lines_below(each, book.units)


@deliveries.command()
@click.argument("customer")
@click.argument("crop", default="")
@click.option("--day", default="", metavar="DAY", help="Which delivery; the next by default.")
@click.option("--packs", type=click.IntRange(1, 10_000), help="How many packs; all by default.")
@OF_ALL_AT
@book_answers(DONE)
def packed(book: Book, customer: str, crop: str, day: str, packs: int | None) -> None:
    """Tick a customer's packs as packed: packed "Bistro", or packed "Bistro" radish --packs 4."""
    from logbook.actions.orders.packing import pack_for

    tell_done(pack_for(book, customer, crop, day, packs))


@deliveries.command()
@click.argument("customer")
@click.option(
    "--day", default="", metavar="DAY", help="Which delivery; the last packed one by default."
)
@COLUMNS
@PAGE
@book_answers("logbook.actions.packs.note:DeliveryNote")
def note(book: Book, customer: str, day: str, columns: int, page: Path | None) -> None:
    """Print the delivery note of what is packed for a customer: crops, packs, lots, best before.

    As text, or with --html as a page for a printer.
    """
    from logbook.exchange.note_file import note_paper, write_note

    if page is None:
        paper = note_paper(book, customer, day)
        tell(paper.note, paper.lines(columns))
        return
    found, said = write_note(book, page, customer, day)
    tell(found, [said], made=True)
