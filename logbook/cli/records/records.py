"""`logbook records`: what rules ask to be kept of lots made and shipped."""

import csv
import io
from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.records.lot_sheets import LotSheet, every_sheet, lot_sheet
from logbook.actions.yields.listing import WEEKS, Span
from logbook.cli.arguments import day
from logbook.cli.printing import book_answers, tell
from logbook.cli.records.keeping import assurance, covered, organic, review, reviews, sold
from logbook.cli.usage import WrongUsage
from logbook.exchange.column import guarded
from logbook.growing.days import day_words
from logbook.growing.records.lot_events import EVENTS
from logbook.text import plural

ASK = (
    "Ask your authority whether the rule applies to you, and from when: small farms and some ways of "
    "selling are exempt (21 CFR 1.1305)."
)


@click.group(
    invoke_without_command=True,
    commands=[reviews, review, assurance, covered, sold, organic],
)
@click.option("--event", type=click.Choice(list(EVENTS)), help="Only this sheet.")
@click.option("--weeks", default=WEEKS, show_default=True, help="How many weeks, up to today.")
@click.option("--from", "since", metavar="DATE", help="The first day, instead of weeks.")
@click.option("--to", "until", metavar="DATE", help="The last day; today by default.")
@click.option("--csv", "as_csv", is_flag=True, help="Print the sheet as CSV; with --event.")
@book_answers("sheets=logbook.actions.records.lot_sheets:LotSheet")
def records(
    book: Book, event: str | None, weeks: int, since: str | None, until: str | None, as_csv: bool
) -> None:  # fmt: skip
    """Show the key data elements of lots made and shipped (21 CFR part 1 subpart S), one sheet per event.

    In a spreadsheet: logbook records --event shipping --csv > shipping.csv. What the book wasn't told stays blank; `logbook room --maker --phone --address` says who and where you are.
    """
    if as_csv and event is None:
        raise WrongUsage(f"Name the sheet for CSV: --event {', '.join(EVENTS)}.")
    span = Span(weeks, day(book, since), day(book, until))
    found = [lot_sheet(book, event, span)] if event else every_sheet(book, span)
    tell({"sheets": found}, _csv(found[0]) if as_csv else _lines(found))


def _lines(sheets: list[LotSheet]) -> Iterator[str]:
    yield f"Lots from {day_words(sheets[0].since)} to {day_words(sheets[0].until)}"
    for each in sheets:
        rows = plural(len(each.rows), "row")
        yield f"{each.sheet.name}: {rows}; {each.sheet.meaning} (21 CFR {each.sheet.section})"
        yield from (f"  blank: {head}" for head in each.blanks)
    yield ASK


def _csv(found: LotSheet) -> list[str]:
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\n")
    writer.writerow(found.heads)
    writer.writerows([[guarded(cell) for cell in row] for row in found.rows])
    return made.getvalue().splitlines()
