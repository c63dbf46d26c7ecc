"""What is left of what crops sell for, by slot and day, the scarce thing; and prices that leave enough."""

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from logbook.growing.costs.parts import Costs
from logbook.growing.currencies import Currency, exact
from logbook.growing.measures import Units, weighing
from logbook.growing.table import Column
from logbook.growing.yields.sold import Sold

MOSTLY = 0.9
"""Where less of what was cut was packed, it is said."""


@dataclass(frozen=True, slots=True)
class CropMargin:
    """A crop over a span: what its trays cost, what they sell for, what is left per slot-day.

    Money is over what is known alone; `unknown` says what isn't in it.
    """

    keys: ClassVar = """
        crop batches trays grams slot_days *costs sale_price_per_kg=sale_per_kg income margin margin_per_slot_day
        lost_cost
    """

    crop: str
    batches: int
    slot_days: float
    costs: Costs
    sale_per_kg: Decimal | None
    lost_cost: Decimal | None
    """What its discarded trays cost, and what of its lots was waste."""
    sold: Sold | None = None
    """What of it was packed and sold; None where nothing was."""

    @property
    def trays(self) -> int:
        """Trays sown."""
        return self.costs.trays

    @property
    def grams(self) -> float:
        """All that was cut, g."""
        return self.costs.grams

    @property
    def income(self) -> Decimal | None:
        """What its grams sell for, if all of it is sold."""
        return None if self.sale_per_kg is None else self.sale_per_kg * exact(self.grams) / 1000

    @property
    def margin(self) -> Decimal | None:
        """What is left of that."""
        known = self.income is not None and self.costs.total is not None
        return self.income - self.costs.total if known else None  # type: ignore[operator]

    @property
    def margin_per_slot_day(self) -> Decimal | None:
        """What is left by slot and day."""
        if self.margin is None or self.slot_days <= 0:
            return None
        return self.margin / exact(self.slot_days)

    @property
    def unsold_words(self) -> str:
        """Say how little of it was packed; '' for most of it, or where that isn't known."""
        if self.income is None or self.sold is None or not self.sold.cut:
            return ""
        packed = self.sold.percent(self.sold.packed)
        return f"{self.crop} {packed:.0f} %" if packed < 100 * MOSTLY else ""

    def more_in_its_slots(self, other: "CropMargin", days: int) -> Decimal | None:
        """What another crop would have brought more in the slots it held, by week of so many days."""
        mine, theirs = self.margin_per_slot_day, other.margin_per_slot_day
        if mine is None or theirs is None or theirs <= mine:
            return None
        return (theirs - mine) * exact(self.slot_days) * 7 / days

    def one_more(self, slots: int, days: int = 7) -> Decimal | None:
        """What so many more slots of it would bring in so many days, sold at the same price."""
        each = self.margin_per_slot_day
        return None if each is None else each * slots * days


@dataclass(frozen=True, slots=True)
class PackPrice:
    """What a pack must sell for, so that a share of the price is left over its cost."""

    keys: ClassVar = "pack_grams price margin_percent currency=currency.code"

    pack_grams: float
    price: Decimal
    margin_percent: float
    currency: Currency


def price_for(cost_per_100_g: Decimal, grams: float, margin_percent: float) -> Decimal:
    """The price of a pack of so many g of which so many % are left over its cost."""
    cost = cost_per_100_g * exact(grams) / 100
    return cost / (1 - exact(margin_percent) / 100)


def margin_columns(money: Currency, units: Units) -> tuple[Column[CropMargin], ...]:
    """A crop a row."""
    bare, of = money.bare, weighing(units)

    def rate(value: Decimal | None) -> str:
        return "" if value is None else bare.rate(value)

    def total(value: Decimal | None) -> str:
        return "" if value is None else bare.total(value)

    def per_weight(value: Decimal | None) -> str:
        return "" if value is None else bare.rate(value * exact(of.share))

    code = money.code or ""
    return (
        Column("crop", lambda one: one.crop, right=False),
        Column("trays", lambda one: str(one.trays), spare=2),
        Column("cost", lambda one: rate(one.costs.per_tray), money.per("tray")),
        Column("cost", lambda one: per_weight(one.costs.per_100_grams), money.per(of.priced)),
        Column(
            "sells for",
            lambda one: per_weight(one.sale_per_kg and one.sale_per_kg / 10),
            money.per(of.priced),
            spare=1,
        ),
        Column("left", lambda one: total(one.margin), code, spare=3),
        Column("left", lambda one: rate(one.margin_per_slot_day), money.per("slot-day")),
        Column("lost", lambda one: total(one.lost_cost or None), code, spare=4),
    )
