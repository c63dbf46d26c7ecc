"""`logbook lot`: what was sown from a seed lot, and where it is now."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.seed.lot_page import LotBatch, LotPage, lot_page
from logbook.actions.seed.tables import stock_facts
from logbook.actions.trays.lists import list_lots
from logbook.cli.completing import complete_lots
from logbook.cli.printing import book_answers, tell
from logbook.cli.trays.lists import EVERY, lot_lines
from logbook.growing.crops.seed_lots import lots_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.life import Status
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.rows import grouped
from logbook.text import plural


@click.command()
@click.argument("name", required=False, shell_complete=complete_lots)
@click.option("--all", "every", is_flag=True, help=EVERY)
@book_answers("logbook.actions.seed.lot_page:LotPage", "lots=logbook.actions.trays.lists:LotLine")
def lot(book: Book, name: str | None, every: bool) -> None:
    """Show a seed lot: its bags, and all that was sown from it: what grows where, what was cut when.

    Without a name list the seed lots.
    """
    if name is None:
        lots = list_lots(book, every=every)
        tell({"lots": lots}, lot_lines(lots, book))
        return
    found = lot_page(book, name)
    tell(found, _lot_words(found, book))


def _lot_words(found: LotPage, book: Book) -> Iterator[str]:
    counts = [
        f"{len(numbers)} {status.words}" for status in Status if (numbers := found.numbers(status))
    ]
    same = found.spellings[1 : len(found.spellings) - len(found.alike)]
    also = f" (also written {', '.join(same)})" if same else ""
    yield (
        f"Seed lot {found.lot}{also}: {plural(len(found.batches), 'batch', 'batches')}, "
        f"trays: {', '.join(counts) or 'none'}"
    )
    if found.alike:
        too = ", so shown too" if found.alike != found.spellings else ""
        yield f"Spelled alike{too}; compare the bags: {', '.join(found.alike)}"
    if found.stock.bags or found.stock.counts or found.stock.weights:
        for label, value in stock_facts(found.stock, found.money, book.units):
            yield f"  {label}: {value}"
    for each in found.batches:
        told = found.alike or each.lots[1:] or each.lots[0].grams is not None
        yield from _batch_words(each, book, said=bool(told))


def _batch_words(batch: LotBatch, book: Book, *, said: bool) -> Iterator[str]:
    done = "sown" if any(tray.state.sown_at for tray in batch.trays) else "planned for"
    when = f", {done} {book.when(batch.at)}" if batch.at else ""
    lots = f", from {lots_words(batch.lots, book.units)}"
    yield f"Batch {batch.batch}: {batch.template_name}{when}{lots if said else ''}"
    for words, trays in grouped((_became(tray, book), tray) for tray in batch.trays).items():
        grams = sum(tray.state.grams or 0.0 for tray in trays)
        weight = f", {grams_words(grams, book.units)}" if grams else ""
        yield f"  {words}: {numbers_words(tray.number for tray in trays)}{weight}"


def _became(tray: TrayNow, book: Book) -> str:
    status, ended = tray.state.status, tray.state.ended_at
    if status in ("growing", "planned"):
        return status.words + (f" on {tray.place}" if tray.place else ", no place")
    return status.words + (f" {book.when(ended)}" if ended else "")
