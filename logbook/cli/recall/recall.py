"""`logbook recall`: whom to call, what to stop, and how long it took."""

import sys
from collections.abc import Iterator
from datetime import timedelta

import click

from logbook.actions.book import Book
from logbook.actions.recall import recalling as acts
from logbook.actions.recall.codes import SHELF_DAYS
from logbook.actions.recall.recall_words import cautions, recall_lines
from logbook.cli.arguments import NOTE
from logbook.cli.completing import complete_lots, complete_places, complete_trays, either
from logbook.cli.csv_lines import csv_lines
from logbook.cli.printing import DONE, book_answers, json_asked, say, tell, tell_done
from logbook.growing.recall.letter import letter
from logbook.growing.recall.recall import Recall
from logbook.text import Refused


@click.command()
@click.argument(
    "code", required=False, shell_complete=either(complete_lots, complete_trays, complete_places)
)
@click.option(
    "--days",
    default=SHELF_DAYS,
    show_default=True,
    help="For a shelf: how many days back.",
)
@click.option("--letters", is_flag=True, help="Print a letter for each customer.")
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV, a row for each delivery.")
@click.option("--practice", is_flag=True, help="Keep it as practice, timed until you press Enter.")
@click.option(
    "--took",
    type=click.FloatRange(0.1, 43_200),
    metavar="MINUTES",
    help="Keep it, with the minutes it took.",
)
@NOTE
@book_answers(
    "logbook.growing.recall.recall:Recall", "logbook.actions.recall.recalling:Recalls", DONE,
)  # fmt: skip
def recall(
    book: Book, code: str | None, days: int, letters: bool, as_csv: bool, practice: bool,
    took: float | None, note: str,
) -> None:  # fmt: skip
    """Show who got what from a seed lot, a pack lot, a batch, trays, a day, a shelf or an entry.

    It also shows what is in the cold store and what is still growing: recall "RA 12", recall "day 2026-04-10",
    recall "Rack 1/Shelf 2", recall "entry 123". `logbook hold` with the same code stops all of it.
    --practice keeps it, and so does --took MINUTES for a real one; with no code, those kept are listed.
    """
    if code is None:
        found = acts.list_recalls(book)
        tell(found, _kept_words(found, book))
        return
    begun = book.now()
    view = acts.recall(book, code, days)
    keeps = practice or took is not None
    if practice and took is None and not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise Refused("How long did it take? Nobody is at this terminal; add --took MINUTES.")
    if not keeps or not json_asked():
        tell(view, _lines(view, book, letters=letters, as_csv=as_csv))
    if not keeps:
        return
    if took is not None:
        begun -= timedelta(minutes=took)
    else:
        click.prompt(
            "Press Enter when all of them have been reached",
            default="",
            show_default=False,
            err=True,
        )
    tell_done(acts.keep_recall(book, acts.RecallDraft(code, begun, practice, note, days)))


def _lines(view: Recall, book: Book, *, letters: bool, as_csv: bool) -> Iterator[str]:
    if as_csv:
        yield from csv_lines(list(view.rows), book.zone)
        return
    if letters:
        about = book.about
        for each in view.everybody:
            yield letter(each, book.today(), about.maker or "", about.address or "", book.units)
        return
    yield f"Recall from {view.name}"
    yield from (line.text for line in recall_lines(view, book.units))
    for sentence in cautions():
        say(sentence)


def _kept_words(found: acts.Recalls, book: Book) -> Iterator[str]:
    if not found.recalls:
        yield 'No recall or practice yet; try: logbook recall "RA 12" --practice'
    for each in found.recalls:
        note = f' "{each.note}"' if each.note else ""
        yield f"{book.when(each.at)}  {each.words(book.units)}{note}  {each.by}"
