"""What is written and asked beside the sheets: reviews, assurances, the exemption, organic."""

from collections.abc import Iterator
from decimal import Decimal

import click

from logbook.actions.book import Book
from logbook.actions.records.assurances import assure, list_assurances
from logbook.actions.records.covered import set_sales, worksheet
from logbook.actions.records.organic import organic as balance
from logbook.actions.records.reviewing import WEEKS, Reviews, review_weeks, week_records
from logbook.actions.records.reviewing import review as write_review
from logbook.actions.yields.listing import WEEKS as SPAN_WEEKS
from logbook.actions.yields.listing import Span
from logbook.cli.arguments import NOTE, day, measured
from logbook.cli.csv_lines import csv_lines
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.cli.trays.page import entry_words
from logbook.growing.days import day_words
from logbook.growing.measures import Units, grams_words
from logbook.growing.quantities import SOLD
from logbook.growing.records.exemption import SalesYear, Worksheet
from logbook.growing.records.organic import LAST_WORD, LotBalance, Organic, SeedBalance
from logbook.growing.table import Column, table


@click.command()
@click.option(
    "--weeks", default=WEEKS, show_default=True, type=click.IntRange(1, 520), help="How many weeks."
)
@click.option("--week", metavar="DATE", help="List the records of this day's week, one by one.")
@book_answers(
    "logbook.actions.records.reviewing:Reviews", "entries=logbook.actions.trays.entry_lines:Line"
)
def reviews(book: Book, weeks: int, week: str | None) -> None:
    """Show each week's records and who reviewed them."""
    if (on := day(book, week)) is not None:
        lines = week_records(book, on)
        said = [entry_words(line, book, day=True) for line in lines]
        tell({"entries": lines}, said or ["No records in that week."])
        return
    found = review_weeks(book, weeks)
    tell(found, review_lines(found, book))


def review_lines(found: Reviews, book: Book) -> Iterator[str]:
    """A line for each week."""
    for each in found.weeks:
        signed = "; not reviewed" if each.counts else ""
        if each.review is not None:
            signed = f"; reviewed by {each.review.by} {book.when(each.review.at)}"
            signed += f", {each.since} written since" if each.since else ""
        yield f"{day_words(each.week)}: {each.words}{signed}"


@click.command()
@click.option("--week", metavar="DATE", help="A day of the week; this week by default.")
@NOTE
@book_answers(DONE)
def review(book: Book, week: str | None, note: str) -> None:
    """Sign that you have looked through a week's records: logbook --by ab records review."""
    tell_done(write_review(book, day(book, week), note))


@click.command()
@click.argument("customer", required=False)
@click.argument("words", required=False, default="")
@click.option("--on", metavar="DATE", help="When it was signed; today by default.")
@book_answers(DONE, "assurances=logbook.actions.records.assurances:Assurance")
def assurance(book: Book, customer: str | None, words: str, on: str | None) -> None:
    """Show the yearly assurances of buyers of live trays; with a customer, write one."""
    if customer is not None:
        tell_done(assure(book, customer, words, day(book, on)))
        return
    found = list_assurances(book)
    none = "No live trays in the last year."
    tell({"assurances": found}, [each.words for each in found] or [none])


@click.command()
@click.argument("year", type=int, required=False)
@measured("--all-food", SOLD, "AMOUNT", "The limit for all food in that year; 500,000 in 2011.")
@measured("--all-produce", SOLD, "AMOUNT", "The limit for produce in that year; 25,000 in 2011.")
@book_answers("logbook.growing.records.exemption:Worksheet")
def covered(
    book: Book, year: int | None, all_food: Decimal | None, all_produce: Decimal | None
) -> None:
    """Am I covered? A worksheet of the produce safety rule's exemption (21 CFR 112.5).

    It uses the three years before, as typed (records sold) or from deliveries.
    """
    found = worksheet(book, year, all_food, all_produce)
    tell(found, covered_lines(found))


def covered_lines(found: Worksheet) -> Iterator[str]:
    """The figures of each year, then what they say."""
    money = found.currency.total
    yield f"Am I covered in {found.year}?"
    for each in found.known:
        source = "typed" if each.typed else "from deliveries"
        yield (
            f"  {each.year}: {money(each.sold)} sold, {money(each.to_end_users)} to qualified end "
            f"users; {source}"
        )
    yield from (f"  {each}: not known" for each in found.missing)
    yield from found.words


@click.command()
@click.argument("year", type=int)
@click.argument("amount", type=SOLD.read)
@measured(
    "--direct",
    SOLD,
    "AMOUNT",
    "How much of it went straight to qualified end users.",
    required=True,
)
@measured("--produce", SOLD, "AMOUNT", "How much of it was produce.")
@book_answers(DONE)
def sold(book: Book, year: int, amount: Decimal, direct: Decimal, produce: Decimal | None) -> None:
    """Write what was sold in a year: records sold 2025 18400 --direct 15200."""
    tell_done(set_sales(book, SalesYear(year, amount, direct, produce)))


@click.command()
@click.option("--weeks", default=SPAN_WEEKS, show_default=True, help="How many weeks, up to today.")
@click.option("--from", "since", metavar="DATE", help="The first day, instead of weeks.")
@click.option("--to", "until", metavar="DATE", help="The last day; today by default.")
@click.option("--csv", "as_csv", is_flag=True, help="Print the lots as CSV.")
@book_answers("logbook.growing.records.organic:Organic")
def organic(book: Book, weeks: int, since: str | None, until: str | None, as_csv: bool) -> None:
    """Show the mass balance of organic seed and lots over a span (7 CFR 205.103)."""
    found = balance(book, Span(weeks, day(book, since), day(book, until)))
    tell(found, csv_lines(found.lots, book.zone) if as_csv else organic_lines(found, book.units))


def organic_lines(found: Organic, units: Units) -> Iterator[str]:
    """The certificate, seed, lots, and what doesn't add up."""
    until = (
        f", until {day_words(found.certified_until, found.today)}" if found.certified_until else ""
    )
    yield f"Organic from {day_words(found.since)} to {day_words(found.until)}"
    yield f"Certificate: {found.certificate or 'not known'}{until if found.certificate else ''}"
    yield from table(seed_columns(units), found.seed, width()).lines or ["No organic seed."]
    yield from table(lot_columns(units), found.lots, width()).lines or ["No organic lots."]
    yield from found.cautions
    yield LAST_WORD


def _grams(value: float | None, units: Units) -> str:
    return "not known" if value is None else grams_words(value, units)


def seed_columns(units: Units) -> tuple[Column[SeedBalance], ...]:
    """What is said of a seed lot's balance."""
    return (
        Column("seed lot", lambda one: one.lot, right=False),
        Column("crop", lambda one: one.crop, right=False, spare=1),
        Column("at first", lambda one: _grams(one.start_grams, units)),
        Column("bought", lambda one: _grams(one.bought_grams, units)),
        Column("sown", lambda one: _grams(one.sown_grams, units)),
        Column("left", lambda one: _grams(one.left_grams, units)),
        Column("off", lambda one: _grams(one.off_grams, units)),
    )


def lot_columns(units: Units) -> tuple[Column[LotBalance], ...]:
    """What is said of a lot's balance."""
    return (
        Column("lot", lambda one: one.code, right=False),
        Column("crop", lambda one: one.crop, right=False, spare=1),
        Column("in", lambda one: _grams(one.in_grams, units)),
        Column("sold", lambda one: _grams(one.sold_grams, units)),
        Column("in mixes", lambda one: _grams(one.mixed_grams, units), spare=1),
        Column("own use", lambda one: _grams(one.own_use_grams, units), spare=2),
        Column("waste", lambda one: _grams(one.waste_grams, units)),
        Column("left", lambda one: _grams(one.left_grams, units)),
    )
