"""Seed lots in columns."""

from datetime import date

from logbook.growing.currencies import Currency
from logbook.growing.days import day_of, day_words
from logbook.growing.measures import Units, grams_words, number_words
from logbook.growing.seed.bags import LotStock, SaidBag
from logbook.growing.seed.pace import PACE_WEEKS, SeedPace
from logbook.growing.seed.shopping import SeedToBuy
from logbook.growing.table import Column


def lot_columns(money: Currency, units: Units) -> tuple[Column[LotStock], ...]:
    """A lot a row: crop, what is left of what, how much of it comes up, from whom and when."""

    def left(one: LotStock) -> str:
        if one.left_grams is None:
            return "not known"
        return ("" if one.exact else "≤ ") + grams_words(max(0.0, one.left_grams), units)

    def comes_up(one: LotStock) -> str:
        label = one.newest.germination_percent if one.newest else None
        if one.counted is not None:
            return f"{number_words(one.counted.germination_percent, 0)} % counted"
        return "" if label is None else f"{number_words(label)} % label"

    def price(one: LotStock) -> str:
        per_kg = one.newest.price_per_kg if one.newest else None
        return "" if per_kg is None else money.bare.total(per_kg)

    return (
        Column("crop", lambda one: one.crop, right=False),
        Column("lot", lambda one: one.lot, right=False),
        Column("left", left),
        Column("comes up", comes_up, spare=1),
        Column("bought", lambda one: f"{one.oldest}" if one.oldest else "not known", spare=2),
        Column("price", price, money.per("kg"), spare=4),
        Column(
            "supplier", lambda one: one.newest.supplier if one.newest else "", right=False, spare=3
        ),
    )


def need_columns(units: Units) -> tuple[Column[SeedToBuy], ...]:
    """A crop a row: what is needed of its seed, what is left, when it runs out, when to order."""

    def left(one: SeedToBuy) -> str:
        have = one.need.have_grams
        return "not known" if have is None else grams_words(have, units)

    def short_day(day: date | None) -> str:
        return "" if day is None else day_words(day)

    return (
        Column("crop", lambda one: one.crop, right=False),
        Column("needed", lambda one: grams_words(one.need.need_grams, units)),
        Column("left", left),
        Column("runs out", lambda one: short_day(one.need.runs_out)),
        Column("order by", lambda one: short_day(one.buy_by)),
    )


PACE_HEAD = f"Otherwise, at the pace of the last {PACE_WEEKS} weeks"


def pace_columns(units: Units) -> tuple[Column[SeedPace], ...]:
    """A crop a row: how much of its seed is used, what is left, when it runs out so."""
    return (
        Column("crop", lambda one: one.crop, right=False),
        Column("a week", lambda one: grams_words(one.grams_per_week, units)),
        Column("left", lambda one: grams_words(one.have_grams, units)),
        Column(
            "runs out",
            lambda one: (
                "over a year" if one.runs_out is None else f"about {day_words(one.runs_out)}"
            ),
        ),
    )


def stock_facts(one: LotStock, money: Currency, units: Units) -> list[tuple[str, str]]:
    """What is known of a lot as label and value."""
    left, newest = one.left_grams, one.newest
    kept = "not known: weigh its bag" if left is None else grams_words(max(0.0, left), units)
    if left is not None and not one.exact:
        kept = f"at most {kept}"
    if newest is None:
        return [("crop", one.crop), ("left", kept), ("bought", "not known"), *_counts(one)]
    label = newest.germination_percent
    tested = f", tested {newest.tested}" if newest.tested else ""
    return [
        ("crop", one.crop),
        ("left", kept),
        *(("bought", _bought(bag, money, units)) for bag in one.bags),
        ("label", _YES[None] if label is None else f"{number_words(label)} % germination{tested}"),
        *_counts(one),
        ("treated", _YES[newest.treated]),
        ("sold for food", _YES[newest.for_food]),
        ("organic", _YES[newest.organic]),
    ]


_YES = {True: "yes", False: "no", None: "not known"}


def _bought(bag: SaidBag, money: Currency, units: Units) -> str:
    price, per_kg = bag.price, bag.price_per_kg
    cost = (
        ""
        if price is None or per_kg is None
        else f"{money.price(price)} ({money.total(per_kg)} per kg)"
    )
    shop = f"from {bag.supplier}" if bag.supplier else ""
    return ", ".join(filter(None, (f"{bag.bought}", grams_words(bag.grams, units), shop, cost)))


def _counts(one: LotStock) -> list[tuple[str, str]]:
    return [
        ("counted", f"{day_words(day_of(each.at, one.zone))}: {each.words}") for each in one.counts
    ]
