"""Deliveries that are wanted, from all that the book knows of orders."""

from collections.abc import Mapping
from datetime import date

from logbook.actions.reading import Reading
from logbook.growing.orders.wishes import Delivery, Orders, Wish, deliveries_of
from logbook.store.reads.orders import read_orders


def wanted(reading: Reading, first: date, last: date) -> list[Delivery]:
    """What is wanted from a day to another, both included, the nearest delivery first."""
    return deliveries_of(read_orders(reading, first), first, last, reading.hours)


def crop_names(reading: Reading) -> Mapping[int, str]:
    """What crops are called where they are ordered, by template id, retired ones too."""
    return dict(reading.rows("SELECT id, name FROM template"))


def wish_crop(wish: Wish, crops: Mapping[int, str]) -> str:
    """The crop or mix of a wish by name."""
    return wish.mix.name if wish.mix else crops[wish.order.template or 0]


def next_wish(orders: Orders, order: int, first: date, last: date, reading: Reading) -> Wish | None:
    """The next delivery of an order in those days."""
    alone = Orders(orders.customers, orders.mixes, {order: orders.orders[order]}, orders.pauses)
    found = deliveries_of(alone, first, last, reading.hours)
    return found[0].wishes[0] if found else None
