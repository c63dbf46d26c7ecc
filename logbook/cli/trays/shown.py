"""`logbook tray`, `batch` and `racks`: what grows, one by one and on its shelves."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.trays.batch_page import batch_page
from logbook.actions.trays.batch_views import BatchPage
from logbook.actions.trays.lists import list_batches, list_trays
from logbook.actions.trays.tray_page import TrayPage, tray_page
from logbook.cli.arguments import one_tray
from logbook.cli.completing import complete_batches, complete_trays
from logbook.cli.printing import book_answers, tell
from logbook.cli.trays.lists import EVERY, batch_lines, tray_lines
from logbook.cli.trays.page import entry_words
from logbook.growing.crops.seed_lots import lots_words
from logbook.growing.days import moment_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import name_words, numbers_words
from logbook.growing.trays.tray_now import TrayNow


@click.command()
@click.argument("number", required=False, shell_complete=complete_trays)
@book_answers(
    "logbook.actions.trays.tray_page:TrayPage", "trays=logbook.actions.trays.lists:TrayLine"
)
def tray(book: Book, number: str | None) -> None:
    """Show one tray as a time line: its past and what comes next; with no number, list the trays."""
    if number is None:
        trays = list_trays(book)
        tell({"trays": trays}, tray_lines(trays))
        return
    found = tray_page(book, one_tray(number))
    tell(found, _tray_words(found, book))


def _tray_words(found: TrayPage, book: Book) -> Iterator[str]:
    tray, again = found.tray, found.tray.regrowth_day
    stage = f", {tray.stage}" if tray.stage else ""
    day = f", day {tray.day_number}" if tray.day_number is not None else ""
    status = tray.status.words if again is None else f"growing again day {again}"
    place = f", {tray.place}" if tray.place else ""
    place += ", mould seen" if tray.mould_seen else ""
    yield (
        f"Tray {name_words(tray.number)}: {tray.crop}, {status}"
        f"{day}{stage}{place}, batch {tray.batch}"
    )
    if tray.on_hold:
        yield f"On hold since {book.when(tray.held.at)}, {tray.on_hold}" if tray.held else ""
    if found.tray.state.grams is not None:
        ratio = found.grams_per_gram_seed
        per_seed = f", {ratio:.2f} g per g of seed" if ratio is not None else ""
        per_seed += "" if found.tray.state.all_weighed else ", not all of it was weighed"
        yield f"Cut {grams_words(found.tray.state.grams, book.units)}{per_seed}"
    yield from _time_line(found, book)
    for each in found.other_lives:
        yield f"Also tray {found.tray.number}: {each.words(book.now(), book.zone)}"


@click.command()
@click.argument("name", required=False, shell_complete=complete_batches)
@click.option("--all", "every", is_flag=True, help=EVERY)
@book_answers(
    "logbook.actions.trays.batch_views:BatchPage",
    "batches=logbook.store.reads.batch_lines:BatchLine",
)
def batch(book: Book, name: str | None, every: bool) -> None:
    """Show one batch: its trays, what happened to them, and the weights; with no name, list them."""
    if name is None:
        batches = list_batches(book, every=every)
        tell({"batches": batches}, batch_lines(batches, book))
        return
    found = batch_page(book, name)
    tell(found, _batch_words(found, book))


def _batch_words(found: BatchPage, book: Book) -> Iterator[str]:
    lot = f", seed lot {lots_words(found.lots, book.units)}" if found.lots else ""
    yield f"Batch {found.batch}: {found.template_name} version {found.version}{lot}"
    for tray in found.trays:
        weight = tray.state.grams
        grams = "" if weight is None else f", {grams_words(weight, book.units)}"
        yield f"  {name_words(tray.number)} {_standing(tray)}{grams} {tray.place}".rstrip()
    if found.unusual:
        yield f"  {found.unusual.words}"
        yield from (f"  {each}" for each in found.unusual.differed)
    if found.costs and found.costs.words:
        yield f"  known cost {found.costs.words}"
        yield from filter(None, [f"  {found.costs.unknown_words}".rstrip()])
    yield from _time_line(found, book)


def _standing(tray: TrayNow) -> str:
    again = tray.regrowth_day
    return (tray.stage or tray.status.words) if again is None else f"growing again day {again}"


def _time_line(page: TrayPage | BatchPage, book: Book) -> Iterator[str]:
    now, zone = book.now(), page.hours.zone
    yield from (f"  {entry_words(line, book, day=True)}" for line in page.past)
    yield f"  now {moment_words(now, now, zone)}"
    for each in page.ahead:
        which = f"  {numbers_words(each.trays)}" if each.trays else ""
        yield f"  {moment_words(each.at, now, zone)}  {each.words}{which}"
