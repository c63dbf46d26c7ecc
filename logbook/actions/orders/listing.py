"""What is ordered: the standing lines and the single orders to come."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.ordering import order_typed, order_words
from logbook.actions.orders.wanted import crop_names, next_wish
from logbook.growing.currencies import Currency
from logbook.growing.orders.customer import Pause
from logbook.growing.orders.order_text import MOST_AHEAD
from logbook.store.reads.orders import read_orders


@dataclass(frozen=True, slots=True)
class OrderLine:
    """A standing or a single order as it is now, or will be."""

    keys: ClassVar = """
        order customer crop packs pack_grams weekdays from=since until price_per_pack ready_at
    """

    order: int
    customer: str
    crop: str
    packs: int
    pack_grams: float | None
    """Null for live trays."""
    weekdays: str
    """On which days it is wanted ("tue,fri"); empty for a single order."""
    since: date
    until: date | None
    price_per_pack: Decimal | None
    ready_at: datetime | None
    """The next delivery; null where there is none within a year."""
    words: str
    text: str
    """As it is typed: "radish 6 x 50g every tue,fri"."""


@dataclass(frozen=True, slots=True)
class OrderList:
    """What is ordered, by customer."""

    keys: ClassVar = "orders currency=currency.code"

    orders: tuple[OrderLine, ...]
    currency: Currency
    """What the prices are in; null where the book names none."""


def list_orders(book: Book) -> OrderList:
    """The standing lines and the single orders to come, by customer; those that ended are left out."""
    with book.reading() as reading:
        today, crops = reading.today, crop_names(reading)
        orders, lines = read_orders(reading, today), []
        for number, rows in orders.orders.items():
            row, customer = rows[-1], orders.customers[rows[-1].customer]
            if (row.gone and row.since <= today) or customer.gone:
                continue
            wish = next_wish(orders, number, today, today + timedelta(days=MOST_AHEAD), reading)
            crop = crops[row.template or 0] if row.mix is None else orders.mixes[row.mix][-1].name
            lines.append(
                OrderLine(
                    number, customer.name, crop, row.packs, row.pack_grams, row.weekdays, row.since,
                    row.until, row.per_pack, None if wish is None else wish.ready_at,
                    order_words(row, customer, crop, reading), order_typed(row, crop),
                )
            )  # fmt: skip
        lines.sort(key=lambda each: (each.customer.casefold(), each.order))
        return OrderList(tuple(lines), reading.about.money)


def list_pauses(book: Book) -> tuple[Pause, ...]:
    """The pauses that aren't over, by their first day."""
    with book.reading() as reading:
        return tuple(read_orders(reading, reading.today).pauses)
