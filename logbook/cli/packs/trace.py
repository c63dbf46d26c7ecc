"""`logbook trace`: back to the bag and forward to every customer."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.packs.life import life_of
from logbook.actions.packs.trace import SeedTrace, TraceView
from logbook.actions.packs.trace import trace as follow
from logbook.actions.packs.trace_words import head_words, sums_words, trace_lines
from logbook.actions.seed.tables import stock_facts
from logbook.actions.trays.lists import list_lots
from logbook.cli.arguments import day as day_said
from logbook.cli.completing import complete_lots
from logbook.cli.csv_lines import csv_lines
from logbook.cli.printing import book_answers, tell
from logbook.cli.trays.lists import EVERY, lot_lines

VIEW = "logbook.actions.packs.trace:"


@click.command()
@click.argument("code", required=False, shell_complete=complete_lots)
@click.argument("day", required=False)
@click.option("--all", "every", is_flag=True, help=EVERY)
@click.option("--life", "life", is_flag=True, help="The life of a pack in ten lines.")
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV.")
@book_answers(
    f"{VIEW}SeedTrace",
    "logbook.growing.packs.trace:Trace",
    "logbook.actions.packs.life:PackLife",
    "lots=logbook.actions.trays.lists:LotLine",
)
def trace(
    book: Book, code: str | None, day: str | None, every: bool, life: bool, as_csv: bool
) -> None:
    """Follow a seed lot, a supplier, a batch, a tray, a pack lot or a delivery, back and forward.

    Back to the bag, forward to every customer, in cut grams that add up. If several
    share a name, put the kind before it: "batch 12". With a day, a number means the tray that had it
    then, and a customer the delivery of that day; otherwise the newest. With no name, list the seed lots.
    """
    if code is None:
        lots = list_lots(book, every=every)
        tell({"lots": lots}, lot_lines(lots, book))
        return
    asked = f"{code}@{day_said(book, day)}" if day else code
    if life:
        told = life_of(book, asked)
        tell(told, (f"{one.what}: {one.words}" for one in told.life))
        return
    found = follow(book, asked)
    if as_csv:
        tell(found, csv_lines(list(found.rows), book.zone))
    else:
        tell(found, _words(found, book))


def _words(found: TraceView, book: Book) -> Iterator[str]:
    yield from head_words(found)
    if isinstance(found, SeedTrace):
        stock = found.stock
        if stock.bags or stock.counts or stock.weights:
            for label, value in stock_facts(stock, found.money, book.units):
                yield f"  {label}: {value}"
    if sums := sums_words(found, book.units):
        yield sums
    yield from (line.text for line in trace_lines(found, book.units, book.when))
