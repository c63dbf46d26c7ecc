"""Bills in columns: shelves, circuits and batches."""

from collections.abc import Callable
from decimal import Decimal

from logbook.actions.room.bills import BatchBill, ShelfBill
from logbook.actions.room.lamps import CircuitView
from logbook.growing.currencies import Currency
from logbook.growing.measures import Units, number_words, weighing
from logbook.growing.room.energy_bill import Bill
from logbook.growing.table import Column

UNPRICED = "no price"


def shelf_columns(money: Currency) -> tuple[Column[ShelfBill], ...]:
    """A shelf a row: its lamps, their hours, what a whole day today takes."""
    bare = money.bare

    def lamps(one: ShelfBill) -> str:
        if one.lamps is None or not one.lamps.lamps:
            return "none" if one.lamps else "not known"
        return f"{one.lamps.lamps} × {number_words(one.lamps.watts)}"

    def lit(of: Callable[[ShelfBill], str]) -> Callable[[ShelfBill], str]:
        return lambda one: of(one) if one.lamps and one.lamps.lamps else ""

    def rate(cost: Decimal | None) -> str:
        return "" if cost is None else bare.rate(cost)

    return (
        Column("shelf", lambda one: one.place.path, right=False),
        Column("lamps", lamps, "W", spare=3),
        Column("hours", lambda one: one.place.hours_words.removeprefix("lit "), spare=4),
        Column("use", lit(lambda one: f"{one.today.bill.kwh:.2f}"), "kWh/day"),
        Column(
            "cost",
            lit(lambda one: one.today.bill.cost_words(bare, UNPRICED)),
            money.per("day"),
            spare=1,
        ),
        Column("per tray", lambda one: rate(one.cost_per_tray_today), money.per("day"), spare=2),
        Column("so far", lambda one: rate(one.cost_per_tray_day), money.per("tray-day"), spare=5),
    )


def circuit_columns() -> tuple[Column[CircuitView], ...]:
    """A circuit a row, against what it should carry for hours."""
    return (
        Column("circuit", lambda one: one.name, right=False),
        Column("draws", lambda one: f"{one.load.amps:.1f}", "A"),
        Column("limit", lambda one: f"{one.load.limit_amps:.1f}", "A"),
        Column("share", lambda one: number_words(one.load.share_of_limit_percent, 0), "%", spare=1),
        Column("verdict", lambda one: "within" if one.load.within else "over", right=False),
    )


def batch_columns(money: Currency, units: Units) -> tuple[Column[BatchBill], ...]:
    """A batch a row: what it used, what that cost and gave."""
    bare, of = money.bare, weighing(units)

    def known(value: float | Decimal | None, write: Callable[[float], str]) -> str:
        return "" if value is None else write(float(value))

    def used(of: Callable[[Bill], str]) -> Callable[[BatchBill], str]:
        return lambda one: "" if one.use.known is None else of(one.use.known)

    def price(one: BatchBill) -> str:
        return known(one.worth.cost_per_100_g, lambda cost: bare.rate(cost * of.share))

    return (
        Column("batch", lambda one: f"{one.crop} {one.batch}", right=False),
        Column("cut", lambda one: of.figure(one.grams) if one.grams else "", of.unit, spare=2),
        Column("use", used(lambda bill: f"{bill.kwh:.1f}"), "kWh"),
        Column("cost", used(lambda bill: bill.cost_words(bare, UNPRICED)), money.code or ""),
        Column("cost", price, money.per(of.priced), spare=1),
        Column(
            "gave", lambda one: known(one.worth.grams_per_kwh, of.figure), f"{of.unit}/kWh", spare=3
        ),
        Column(
            "gave", lambda one: known(one.worth.grams_per_mol, of.figure), f"{of.unit}/mol", spare=4
        ),
        Column(
            "growing", lambda one: f"{one.growing} of {one.trays}" if one.growing else "", spare=5
        ),
    )
