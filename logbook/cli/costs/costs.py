"""`logbook costs`: what trays cost, what is left, and the rates that it is reckoned from."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.costs.costing import CropCosts, batch_costs, crop_costs
from logbook.actions.costs.rates import list_rates, set_rate
from logbook.actions.yields.listing import WEEKS, Span
from logbook.cli.arguments import BATCH, day
from logbook.cli.completing import complete_templates
from logbook.cli.csv_lines import csv_lines
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.growing import quantities
from logbook.growing.costs.margin import PackPrice, margin_columns, price_for
from logbook.growing.costs.parts import BatchCosts, unknown_words
from logbook.growing.costs.rates import RATES, rate_amount, rate_name
from logbook.growing.days import day_words
from logbook.growing.measures import grams_words, number_words
from logbook.growing.table import table
from logbook.text import Refused, listed, plural


@click.group(invoke_without_command=True)
@click.option("--batch", type=BATCH, help="Only this batch, part by part.")
@click.option("--crop", default="", shell_complete=complete_templates, help="Only this crop.")
@click.option("--weeks", default=WEEKS, show_default=True, help="How many weeks, up to today.")
@click.option("--from", "since", metavar="DATE", help="The first day, instead of weeks.")
@click.option("--to", "until", metavar="DATE", help="The last day; today by default.")
@click.option("--csv", "as_csv", is_flag=True, help="Print CSV.")
@book_answers("logbook.actions.costs.costing:CropCosts", "logbook.growing.costs.parts:BatchCosts")
def costs(
    book: Book, batch: int | None, crop: str, weeks: int, since: str | None, until: str | None,
    as_csv: bool,
) -> None:  # fmt: skip
    """Show what trays cost and what is left per slot-day, lowest first; unknown costs are named."""
    if batch is not None:
        one = batch_costs(book, batch)
        tell(one, csv_lines(one.costs.parts, book.zone) if as_csv else _batch_lines(one, book))
        return
    found = crop_costs(book, Span(weeks, day(book, since), day(book, until)), crop)
    tell(found, csv_lines(found.crops, book.zone) if as_csv else _crop_lines(found))


def _batch_lines(found: BatchCosts, book: Book) -> Iterator[str]:
    costs = found.costs
    money, gave = costs.currency, grams_words(costs.grams, book.units)
    yield f"Batch {found.batch}, {found.crop}: {plural(costs.trays, 'tray')}, {gave} cut"
    for one in costs.parts:
        yield f"  {one.part:12} {'not known' if one.money is None else money.rate(one.money)}"
    if costs.total is not None:
        yield f"  {'known in all':12} {money.total(costs.total)}"
    if costs.per_tray is not None:
        yield f"  {'per tray':12} {money.rate(costs.per_tray)}"
    if costs.per_100_grams is not None:
        yield f"  {'per 100 g':12} {money.rate(costs.per_100_grams)}"
    if costs.unknown_words:
        yield costs.unknown_words


def _crop_lines(found: CropCosts) -> list[str]:
    span = f"{day_words(found.since)} to {day_words(found.until)}"
    if not found.crops:
        return [f"No tray left the rack from {span}."]
    lines = [f"Trays that left the rack from {span}; only known costs are counted:"]
    lines += table(margin_columns(found.currency, found.units), found.crops, width()).lines
    unknown = unknown_words(one for crop in found.crops for one in crop.costs.unknown)
    if unknown:
        lines.append(f"Not known for some: {unknown}.")
    unpriced = [one.crop for one in found.crops if one.sale_per_kg is None]
    if unpriced:
        lines.append(f"The selling price isn't known for {listed(unpriced, most=6)}.")
    lines += filter(None, [found.unsold_words])
    best = found.best
    slots = found.shelf_slots
    if best is not None and slots and (more := best.one_more(slots)) is not None:
        lines.append(
            f"One more shelf of {plural(slots, 'slot')} would bring {found.currency.total(more)} a week, if all of it "
            f"were {best.crop} and sold at the same price."
        )
    lines += [
        f"{one.crop}: {words[0].lower()}{words[1:]}"
        for one in found.crops
        if (words := found.instead_words(one))
    ]
    return lines


@costs.command(name="set", context_settings={"ignore_unknown_options": True})
@click.argument("name")
@click.argument("amount")
@click.option("--crop", default="", shell_complete=complete_templates, help="Only for this crop.")
@click.option(
    "--from",
    "since",
    metavar="DATE",
    help="From which day it applies; by default today, or the book's first day for the first one.",
)
@book_answers(DONE)
def set_(book: Book, name: str, amount: str, crop: str, since: str | None) -> None:
    """Write what something costs or takes: costs set medium 0.35, costs set minutes-water 0.2."""
    known = rate_name(name)
    tell_done(set_rate(book, known, rate_amount(known, amount), crop, day(book, since)))


@costs.command()
@book_answers("rates=logbook.growing.costs.rates:CostRate")
def rates(book: Book) -> None:
    """List the rates that apply, and which are still missing."""
    found = list_rates(book)
    missing = [name for name in RATES if name not in {one.name for one in found}]
    lines = [one.words for one in found]
    lines += [f"{name}: not set ({RATES[name].meaning})" for name in missing]
    tell({"rates": found}, lines)


@costs.command()
@click.argument("crop", shell_complete=complete_templates)
@click.option(
    "--pack",
    "packs",
    multiple=True,
    required=True,
    metavar="GRAMS",
    help="Like 50g; may be repeated.",
)
@click.option("--margin", default="50%", show_default=True, help="Share of the price to be left.")
@click.option("--weeks", default=WEEKS, show_default=True, help="How many weeks, up to today.")
@book_answers("prices=logbook.growing.costs.margin:PackPrice")
def prices(book: Book, crop: str, packs: tuple[str, ...], margin: str, weeks: int) -> None:
    """Say what packs of a crop must sell for: costs prices radish --pack 50g --margin 60%."""
    found = crop_costs(book, Span(weeks), crop)
    cost = found.crops[0].costs.per_100_grams if found.crops else None
    if cost is None:
        raise Refused(f"What 100 g of {crop} cost isn't known: no tray cut, or no cost set.")
    left = quantities.MARGIN.read(margin)
    sizes = [quantities.ORDER.read(each, book.units) for each in packs]
    said = [PackPrice(size, price_for(cost, size, left), left, found.currency) for size in sizes]
    money = found.currency
    lines = [
        f"{grams_words(one.pack_grams, book.units)}: {money.total(one.price)}, of which "
        f"{number_words(one.margin_percent)} % is left"
        for one in said
    ]
    if found.crops[0].costs.unknown:
        lines.append(f"Not included: {unknown_words(found.crops[0].costs.unknown)}.")
    tell({"prices": said}, lines)
