"""Reviews, assurances and years of sales, from standing entries; what a review looks at."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from logbook.growing.records.exemption import SalesYear
from logbook.store.reads.standing import STANDS, standing
from logbook.store.rows import Rows, Values, quoted, stored


@dataclass(frozen=True, slots=True)
class SaidReview:
    """That somebody has reviewed a week."""

    entry: int
    at: datetime
    written_at: datetime
    by: str
    note: str
    week: date


@dataclass(frozen=True, slots=True)
class SaidAssurance:
    """What a customer (id) assured in writing, for a year from a day on."""

    entry: int
    by: str
    note: str
    customer_id: int
    given_on: date


@dataclass(frozen=True, slots=True)
class RecordEntry:
    """An entry that a review looks at."""

    id: int
    kind: str
    at: datetime
    written_at: datetime


@dataclass(frozen=True, slots=True)
class SoldPacks:
    """Packs that went to a customer (id) on a day; price per pack of their order then, None for none."""

    day: date
    customer: int
    packs: int
    price: Decimal | None


def read_reviews(reading: Rows, since: date) -> list[SaidReview]:
    """The reviews of the weeks from a Monday on, oldest first."""
    return standing(reading, SaidReview, "review", "AND x.week >= ?", (since.isoformat(),))


def read_assurances(reading: Rows) -> list[SaidAssurance]:
    """All assurances, oldest first."""
    return standing(reading, SaidAssurance, "assurance", order="x.given_on, e.id")


def read_sales_years(reading: Rows) -> dict[int, SalesYear]:
    """What was typed of each year; the newest holds."""
    rows = reading.make(
        SalesYear,
        "SELECT x.year, x.sold, x.to_end_users, x.produce FROM sales_year x "
        f"CROSS JOIN entry e ON e.id = x.entry_id WHERE {STANDS} ORDER BY e.id",
    )
    return {each.year: each for each in rows}


def read_record_entries(
    reading: Rows, kinds: tuple[str, ...], start: datetime, end: datetime
) -> list[RecordEntry]:
    """The standing entries of these kinds in a time, oldest first."""
    values: Values = (stored(start), stored(end))
    return reading.make(
        RecordEntry,
        "SELECT e.id, e.kind, e.at, e.written_at FROM entry e WHERE e.at >= ? AND e.at < ? "
        f"AND e.kind IN ({quoted(kinds)}) AND {STANDS} ORDER BY e.at, e.id",
        values,
    )


def read_sold_packs(reading: Rows, first: date, last: date) -> list[SoldPacks]:
    """What was packed for the deliveries of some days, both included, with its order's price then."""
    price = (
        "SELECT o.price FROM order_line o CROSS JOIN entry oe ON oe.id = o.entry_id "
        "WHERE o.order_id = x.order_id AND (o.since <= x.day OR o.weekdays = '') "
        f"AND {STANDS.replace('e.id', 'oe.id')} ORDER BY o.since DESC, o.entry_id DESC LIMIT 1"
    )
    return reading.make(
        SoldPacks,
        f"SELECT x.day, x.customer_id AS customer, x.packs, ({price}) AS price FROM packed x "
        f"CROSS JOIN entry e ON e.id = x.entry_id WHERE x.day BETWEEN ? AND ? AND {STANDS} "
        "ORDER BY x.entry_id",
        (first.isoformat(), last.isoformat()),
    )


def live_tray_buyers(reading: Rows, since: date) -> set[int]:
    """The customers (ids) who got live trays since a day."""
    rows = reading.rows(
        "SELECT DISTINCT x.customer_id FROM packed x CROSS JOIN entry e ON e.id = x.entry_id "
        f"WHERE x.pack_grams IS NULL AND x.day >= ? AND {STANDS}",
        (since.isoformat(),),
    )
    return {customer for (customer,) in rows}
