"""`logbook yields`: what crops gave over a span."""

from collections.abc import Sequence

import click

from logbook.actions.book import Book
from logbook.actions.yields.listing import (
    WEEKS,
    BatchYields,
    Span,
    TrayYields,
    Yields,
    backtested,
    yields_by_batch,
    yields_by_tray,
)
from logbook.actions.yields.listing import yields as find
from logbook.cli.arguments import BATCH, day
from logbook.cli.completing import complete_templates
from logbook.cli.csv_lines import csv_lines
from logbook.cli.printing import book_answers, tell, width
from logbook.cli.usage import WrongUsage
from logbook.growing.days import day_words
from logbook.growing.table import table
from logbook.growing.yields.crop_yields import PER, CropYield, Shown, yield_columns

YEAR, HALF_YEAR = 52, 26
"""Weeks of a back-test, and of what lateness did."""
VIEW = "logbook.actions.yields.listing:"


@click.command()
@click.argument("crop", default="", shell_complete=complete_templates)
@click.option(
    "--weeks",
    type=int,
    help=f"How many weeks, up to today; by default {WEEKS}, for --backtest {YEAR}, for --lateness {HALF_YEAR}.",
)
@click.option("--from", "since", metavar="DATE", help="The first day, instead of weeks.")
@click.option("--to", "until", metavar="DATE", help="The last day; today by default.")
@click.option("--per", type=click.Choice(list(PER)), default=None, help="Split each crop by this.")
@click.option("--batches", "by_batch", is_flag=True, help="One row per batch.")
@click.option("--batch", type=BATCH, help="One row per tray of this batch.")
@click.option(
    "--backtest", "back", is_flag=True, help="How often the cut weight fell within its range."
)
@click.option(
    "--lateness", "late", is_flag=True, help="What lateness, soaks, shelves and weaker lamps did."
)
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV.")
@book_answers(
    f"{VIEW}Yields",
    f"{VIEW}BatchYields",
    f"{VIEW}TrayYields",
    "logbook.growing.yields.backtest:Backtest",
    "logbook.actions.yields.lateness:Lateness",
)
def yields(
    book: Book, crop: str, weeks: int | None, since: str | None, until: str | None, per: str | None,
    by_batch: bool, batch: int | None, back: bool, late: bool, as_csv: bool,
) -> None:  # fmt: skip
    """Show what crops gave: trays, losses, grams per tray, slot-day, seed and kWh; lowest first.

    Trays count from the day they leave the rack. A discarded tray counts as 0 g.
    """
    views = (
        ("--batches", by_batch),
        ("--batch", batch is not None),
        ("--backtest", back),
        ("--lateness", late),
    )
    asked = [name for name, given in views if given]
    if len(asked) > 1 or (per and asked):
        raise WrongUsage(f"{asked[0]} goes without {asked[1] if asked[1:] else '--per'}.")
    if as_csv and (back or late):
        raise WrongUsage(f"{asked[0]} is not a table; use --json instead of --csv.")
    told = any(each is not None for each in (weeks, since, until))
    weeks = (YEAR if back else HALF_YEAR if late else WEEKS) if weeks is None else weeks
    span = Span(weeks, day(book, since), day(book, until))
    if late:
        from logbook.actions.yields.lateness import lateness

        seen = lateness(book, crop, span)
        tell(seen, seen.lines())
        return
    if back:
        held = backtested(book, crop, span)
        tell(held, held.lines())
        return
    found: Yields | BatchYields | TrayYields
    if batch is not None:
        found = yields_by_tray(book, batch, span if told else None)
    else:
        found = yields_by_batch(book, crop, span) if by_batch else find(book, span, per or "", crop)
    tell(found, csv_lines(rows_of(found), book.zone) if as_csv else _lines(found))


def _lines(found: Yields | BatchYields | TrayYields) -> list[str]:
    rows = rows_of(found)
    span = f"{day_words(found.since)} to {day_words(found.until)}"
    if not rows:
        of = f" of batch {found.batch}" if isinstance(found, TrayYields) else ""
        return [f"No tray{of} left the rack from {span}."]
    of = f" of batch {found.batch}, {found.crop}," if isinstance(found, TrayYields) else ""
    lines = [f"Trays{of} that left the rack from {span}:"]
    lines += table(yield_columns(_HEADS[type(found)], found.units), rows, width()).lines
    lines += [f"{one.name}: lost {one.lost_words}" for one in rows if one.lost]
    lines += [f"{one.name}: {one.other_words}" for one in rows if one.other_words]
    lines += [
        f"{one.name}: {one.sold.words(one.grams, found.units)}"
        for one in rows
        if isinstance(one, CropYield) and one.sold
    ]
    lines += [f"{one.name}: {words}" for one in rows if (words := getattr(one, "unusual", ""))]
    return lines


_HEADS = {Yields: "crop", BatchYields: "batch", TrayYields: "tray"}


def rows_of(found: Yields | BatchYields | TrayYields) -> Sequence[Shown]:
    """A row for each crop, batch or tray."""
    if isinstance(found, TrayYields):
        return found.trays
    return found.batches if isinstance(found, BatchYields) else found.crops
