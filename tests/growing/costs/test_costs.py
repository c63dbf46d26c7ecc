"""Costs worked by hand, and that parts make the whole."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.costs.margin import CropMargin, price_for
from logbook.growing.costs.parts import (
    CostPart,
    Costs,
    Used,
    packs_of,
    parts_of,
    summed,
    unknown_words,
)
from logbook.growing.costs.rates import RATES, CostRate, Rates, rate_amount, rate_name
from logbook.growing.currencies import Currency
from logbook.text import Refused

DAY = date(2026, 4, 1)
EUR = Currency("EUR")
USED = Used(
    template=1, sown=DAY, cut=date(2026, 4, 9), trays=4, grams=1230.0, seed_grams=120.0,
    seed_cost=None, electricity=Decimal("1.2345"), water_ml=8_000.0, slot_days=32.0,
    chores={"sow": 4, "water": 28, "cut": 4},
)  # fmt: skip
SAID = {
    "wage": "18", "minutes-sow": "3", "minutes-water": "0.2", "minutes-cut": "4", "minutes-clean": "1",
    "minutes-pack": "0.5", "medium": "0.35", "wear": "0.05", "seed": "15", "water": "2.5", "pack": "0.12",
    "label": "0.03", "pack-grams": "50", "overhead": "0.05",
}  # fmt: skip


def rates(**more: str) -> Rates:
    said = SAID | {name.replace("_", "-"): amount for name, amount in more.items()}
    return Rates(
        CostRate(name, Decimal(amount), date(2026, 1, 1)) for name, amount in said.items() if amount
    )


def test_a_batch_by_hand() -> None:
    """4 trays, 1,230 g: 24 packs of 50 g.

    Seed 0.120 kg × 15 = 1.80; medium 4 × 0.35 = 1.40; wear 0.20; water 8 l of 2.50 per 1,000 l = 0.02;
    packs 24 × 0.12 = 2.88; labels 0.72; minutes 4×3 + 28×0.2 + 4×4 + 4×1 + 24×0.5 = 49.6 at 18 an
    hour = 14.88; overhead 32 × 0.05 = 1.60; electricity 1.2345. In all 24.7345.
    """
    parts, unknown = parts_of(USED, rates())
    assert unknown == ()
    assert {one.part: one.money for one in parts} == {
        "seed": Decimal("1.80"), "medium": Decimal("1.40"), "wear": Decimal("0.20"), "water": Decimal("0.02"),
        "electricity": Decimal("1.2345"), "packs": Decimal("2.88"), "labels": Decimal("0.72"), "work": Decimal("14.88"),
        "overhead": Decimal("1.60"),
    }  # fmt: skip
    costs = Costs(parts, unknown, 4, 1230.0, EUR)
    assert costs.total == Decimal("24.7345")
    assert costs.per_tray == Decimal("24.7345") / 4
    assert costs.per_100_grams == pytest.approx(Decimal("2.01093"), abs=Decimal("0.00001"))


def test_what_is_not_known_is_named_and_never_0() -> None:
    parts, unknown = parts_of(replace(USED, electricity=None, water_ml=None), Rates(()))
    assert all(one.money is None for one in parts)
    assert Costs(parts, unknown, 4, 1230.0, EUR).total is None
    assert {"seed", "medium", "wage", "electricity", "amounts of water", "pack-grams"} <= set(
        unknown
    )


def test_a_wage_of_0_is_known_and_a_missing_minute_is_named() -> None:
    parts, unknown = parts_of(USED, rates(wage="0"))
    assert {one.part: one.money for one in parts}["work"] == 0
    assert unknown == ()
    parts, unknown = parts_of(USED, rates(minutes_cut=""))
    assert unknown == ("minutes-cut",)
    assert {one.part: one.money for one in parts}["work"] == Decimal("14.88") - Decimal(
        16
    ) * 18 / 60


def test_a_price_that_changed_half_way_and_one_of_a_crop() -> None:
    said = Rates([
        CostRate("medium", Decimal("0.30"), date(2026, 1, 1)), CostRate("medium", Decimal("0.40"), date(2026, 4, 2)),
        CostRate("medium", Decimal("0.90"), date(2026, 1, 1), template_id=2),
    ])  # fmt: skip
    assert said.of("medium", 1, DAY) == Decimal("0.30")
    assert said.of("medium", 1, date(2026, 4, 2)) == Decimal("0.40")
    assert said.of("medium", 2, date(2026, 5, 1)) == Decimal("0.90")
    assert said.of("medium", 1, date(2025, 12, 31)) is None


def test_no_grams_need_no_packs() -> None:
    assert packs_of(replace(USED, grams=49.9), rates()) == 0
    parts, unknown = parts_of(replace(USED, grams=0.0), rates(pack_grams=""))
    assert {one.part: one.money for one in parts}["packs"] == 0
    assert unknown == ()


@given(
    st.lists(st.decimals(0, 1000, places=3), min_size=14, max_size=14),
    st.integers(1, 60), st.floats(0, 60_000), st.floats(0, 500),
)  # fmt: skip
def test_parts_make_the_whole(
    amounts: list[Decimal], trays: int, grams: float, days: float
) -> None:
    said = {
        name: f"{max(amount, Decimal('0.001'))}" for name, amount in zip(SAID, amounts, strict=True)
    }
    some = Rates(CostRate(name, Decimal(amount), DAY) for name, amount in said.items())
    used = replace(USED, trays=trays, grams=grams, slot_days=days)
    each = Costs(*parts_of(used, some), trays, grams, EUR)
    assert each.total == sum(one.money for one in each.parts if one.money is not None)
    whole = summed([each, each, each])
    assert whole.total == 3 * each.total
    assert whole.trays == 3 * trays
    assert whole.grams == pytest.approx(3 * grams)


@pytest.mark.parametrize(
    ("code", "said"), [("KWD", "24.734 KWD, 6.1836 KWD per tray, 2.0109 KWD per 100 g"),
                       ("JPY", "25 JPY, 6.2 JPY per tray, 2.0 JPY per 100 g")],
)  # fmt: skip
def test_three_digits_and_none(code: str, said: str) -> None:
    costs = Costs(*parts_of(USED, rates()), 4, 1230.0, Currency(code))
    assert costs.words == said
    assert costs.total == Decimal("24.7345")  # what is written is rounded, not what is kept


def test_what_is_not_known_is_named_shortly() -> None:
    assert (
        unknown_words(["wage", "minutes-sow", "wage", "minutes-cut"])
        == "wage and minutes (sow, cut)"
    )
    assert unknown_words(["minutes-sow"]) == "minutes-sow"
    assert unknown_words([]) == ""


def test_another_crop_in_its_slots() -> None:
    """32 slot-days in 14 days; 0.05 more each: 1.60, half of it a week."""
    one = CropMargin(
        "kale",
        1,
        32.0,
        Costs((CostPart("work", Decimal(1)),), (), 4, 100.0, EUR),
        Decimal(10),
        None,
    )
    other = replace(one, crop="pea", sale_per_kg=Decimal(26))
    assert one.more_in_its_slots(other, 14) == Decimal("0.8")
    assert other.more_in_its_slots(one, 14) is None
    assert one.more_in_its_slots(replace(other, sale_per_kg=None), 14) is None


def test_margin_by_slot_and_day() -> None:
    """1,230 g at 24 per kg are 29.52; less 24.7345 leaves 4.7855 for 32 slot-days: 0.1495."""
    parts, unknown = parts_of(USED, rates())
    found = CropMargin("radish", 1, 32.0, Costs(parts, unknown, 4, 1230.0, EUR), Decimal(24), None)
    assert found.income == Decimal("29.52")
    assert found.margin == Decimal("4.7855")
    assert found.margin_per_slot_day == pytest.approx(Decimal("0.14955"), abs=Decimal("0.0001"))
    assert found.one_more(6) == pytest.approx(Decimal("6.281"), abs=Decimal("0.001"))
    assert price_for(Decimal(2), 50, 60) == Decimal("2.5")
    assert replace(found, sale_per_kg=None).margin is None


@pytest.mark.parametrize(
    ("name", "text"),
    [("wage", "-3"), ("wage", "3 kg"), ("pack-grams", "0"), ("medium", "x"), ("wage", "10000000")],
)
def test_what_is_no_rate(name: str, text: str) -> None:
    with pytest.raises(Refused):
        rate_amount(name, text)


def test_names_of_rates() -> None:
    assert rate_name("Minutes water") == "minutes-water"
    with pytest.raises(Refused, match='mean "wage"'):
        rate_name("wege")
    assert rate_amount("wage", "18.505") == Decimal("18.505")
    assert rate_amount("minutes-sow", "3 min") == Decimal(3)
    assert all(rate.meaning for rate in RATES.values())
