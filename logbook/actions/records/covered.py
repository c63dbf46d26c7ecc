"""Am I covered? The worksheet of the qualified exemption, from what was typed or from deliveries."""

from datetime import date
from decimal import Decimal

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.done import Done, done_of
from logbook.growing.records.exemption import ALL_FOOD, ALL_PRODUCE, YEARS, SalesYear, Worksheet
from logbook.store.reads.orders import read_customers
from logbook.store.reads.records import read_sales_years, read_sold_packs
from logbook.store.rows import grouped
from logbook.text import Refused


def set_sales(book: Book, sales: SalesYear) -> Done:
    """Write what was sold in a year, in place of what deliveries come to; raises Refused."""
    with book.writing() as act:
        this = act.reading.today.year
        if not 2000 <= sales.year <= this:
            raise Refused(f"Sales are for a year up to {this}, not {sales.year}.", "year")
        for name, part in (
            ("to qualified end users", sales.to_end_users),
            ("produce", sales.produce),
        ):
            if part is not None and part > sales.sold:
                raise Refused(f"More was sold {name} ({part}) than in all ({sales.sold}).")
        money = act.reading.about.money
        words = (
            f"sales of {sales.year}: {money.total(sales.sold)}, "
            f"{money.total(sales.to_end_users)} of it to qualified end users"
        )
        entry = act.entry("sales", (), note=words)
        act.put(
            "sales_year", entry, year=sales.year, sold=f"{sales.sold:f}",
            to_end_users=f"{sales.to_end_users:f}",
            produce=None if sales.produce is None else f"{sales.produce:f}",
        )  # fmt: skip
        return done_of(act, words, ())


def worksheet(
    book: Book, year: int | None = None, all_food: Decimal | None = None,
    all_produce: Decimal | None = None,
) -> Worksheet:  # fmt: skip
    """The worksheet of a year (this one), by amounts that hold then, else those of 2011."""
    with book.reading() as reading:
        wanted = year or reading.today.year
        if not 2003 <= wanted <= reading.today.year + 1:
            raise Refused(f"The worksheet is for a year up to {reading.today.year + 1}.", "year")
        before = range(wanted - YEARS, wanted)
        typed, sold = read_sales_years(reading), _from_deliveries(reading, before)
        years = tuple(typed.get(each) or sold.get(each) for each in before)
        return Worksheet(
            wanted, years, all_food or ALL_FOOD, all_produce or ALL_PRODUCE, reading.about.money
        )


def _from_deliveries(reading: Reading, years: range) -> dict[int, SalesYear]:
    """What was packed and delivered, by year; all of it counts as produce."""
    packs = read_sold_packs(reading, date(years[0], 1, 1), date(years[-1], 12, 31))
    customers = {each.id: each for each in read_customers(reading)}
    found = {}
    for year, out in grouped((each.day.year, each) for each in packs).items():
        paid = [(each, each.packs * each.price) for each in out if each.price is not None]
        sold = sum((money for _, money in paid), Decimal(0))
        direct = (money for each, money in paid if customers[each.customer].end_user)
        found[year] = SalesYear(
            year, sold, sum(direct, Decimal(0)), sold, typed=False,
            unpriced=sum(each.packs for each in out if each.price is None),
            unknown=tuple(
                dict.fromkeys(
                    customers[each.customer].name
                    for each in out
                    if customers[each.customer].end_user is None
                )
            ),
        )  # fmt: skip
    return found
