"""Seed lots in columns."""

from logbook.growing.currencies import Currency
from logbook.growing.measures import Units, grams_words, number_words
from logbook.growing.seed.bags import LotStock
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
