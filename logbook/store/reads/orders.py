"""Reading customers, mixes, orders, pauses and what was packed, from standing entries."""

from datetime import date

from logbook.growing.orders.customer import Customer, Mix, Order, Packed, Pause
from logbook.growing.orders.wishes import Orders
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, grouped

_ORDER = """
SELECT order_id AS id, x.entry_id AS entry, customer_id AS customer, template_id AS template,
       mix_id AS mix, packs, pack_grams, weekdays, minute, since, until, price, gone
FROM order_line x CROSS JOIN entry e ON e.id = x.entry_id
"""


def read_orders(reading: Rows, since: date) -> Orders:
    """All customers and mixes, the orders that were wanted since a day, and what was packed since."""
    orders = reading.make(
        Order,
        f"{_ORDER} WHERE x.order_id IN (SELECT order_id FROM order_line "
        f"WHERE until IS NULL OR until >= ?) AND {STANDS} ORDER BY x.entry_id",
        (since.isoformat(),),
    )
    pauses = reading.make(
        Pause,
        'SELECT customer_id AS customer, order_id AS "order", since, until FROM order_pause x '
        f"CROSS JOIN entry e ON e.id = x.entry_id WHERE until >= ? AND {STANDS} ORDER BY since",
        (since.isoformat(),),
    )
    return Orders(
        {each.id: each for each in read_customers(reading)},
        grouped((each.id, each) for each in read_mixes(reading)),
        grouped((each.id, each) for each in orders),
        pauses,
        read_packed(reading, since),
    )


def read_customers(reading: Rows) -> list[Customer]:
    """Every customer as the newest standing entry says, by name; gone where none stands."""
    rows = reading.make(
        Customer,
        "SELECT customer_id AS id, name, x.kind, contact, weekdays, minute, near, "
        f"gone = 1 OR NOT {STANDS} AS gone FROM customer x "
        f"CROSS JOIN entry e ON e.id = x.entry_id ORDER BY {STANDS}, x.entry_id",
    )
    return sorted({each.id: each for each in rows}.values(), key=lambda each: each.name.casefold())


def read_mixes(reading: Rows) -> list[Mix]:
    """Every row of every mix, in the order of the day from which it holds; struck ones come first."""
    parts = grouped(
        (entry, (template, weight))
        for entry, template, weight in reading.rows(
            "SELECT entry_id, template_id, parts FROM mix_part ORDER BY entry_id, template_id"
        )
    )
    rows = reading.rows(
        f"SELECT x.entry_id, mix_id, name, since, gone = 1 OR NOT {STANDS}, {STANDS} FROM mix x "
        f"CROSS JOIN entry e ON e.id = x.entry_id ORDER BY {STANDS}, since, x.entry_id"
    )
    standing = {row[1] for row in rows if row[5]}
    return [
        Mix(mix, name, date.fromisoformat(since), _shares(dict(parts[entry])), bool(gone))
        for entry, mix, name, since, gone, stands in rows
        if stands or mix not in standing
    ]


def _shares(parts: dict[int, float]) -> dict[int, float]:
    whole = sum(parts.values())
    return {template: part / whole for template, part in parts.items()}


def read_packed(reading: Rows, since: date) -> list[Packed]:
    """What was packed for the deliveries since a day, oldest first."""
    return reading.make(
        Packed,
        'SELECT x.entry_id AS entry, e.at, e."by", order_id AS "order", customer_id AS customer, '
        "template_id AS template, mix_id AS mix, packs, pack_grams, day "
        f"FROM packed x CROSS JOIN entry e ON e.id = x.entry_id WHERE day >= ? AND {STANDS} "
        "ORDER BY e.at, e.id",
        (since.isoformat(),),
    )


def last_got(reading: Rows, customer: int) -> date | None:
    """The day of the last delivery that was packed for a customer (id); None for none."""
    found = reading.value(
        "SELECT max(x.day) FROM packed x CROSS JOIN entry e ON e.id = x.entry_id "
        f"WHERE x.customer_id = ? AND {STANDS}",
        (customer,),
    )
    return date.fromisoformat(found) if found else None
