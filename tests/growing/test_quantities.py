"""Every quantity of the table: what it writes is read back, its range is kept and said."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing import quantities
from logbook.growing.measures import Units
from logbook.growing.quantities import AIR, EC, SLOTS, STOCK, TRAYS, Quantity
from logbook.text import Refused

EVERY = {name: each for name, each in vars(quantities).items() if isinstance(each, Quantity)}
UNITS: tuple[Units, ...] = get_args(Units)


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("name", sorted(EVERY))
@given(share=st.floats(0.01, 0.99))
def test_what_is_written_is_read_back(name: str, units: Units, share: float) -> None:
    quantity = EVERY[name]
    low, high = quantity.usual or (quantity.low, min(quantity.high, 1_000.0))
    value = low + share * (high - low)
    text = quantity.text(value, units)
    if quantity.scale is STOCK.scale:
        text += " %"  # a bare strength is refused: % and ppm are both usual
    assert quantity.read(text, units) == pytest.approx(value, rel=1e-2, abs=1e-2)


@pytest.mark.parametrize("name", sorted(EVERY))
def test_the_ends_of_a_range_are_kept_and_said(name: str) -> None:
    quantity = EVERY[name]
    beyond = [quantity.low - 1, math.nan] + [quantity.high + 1] * math.isfinite(quantity.high)
    for value in (*beyond, *([quantity.low] if quantity.over else [])):
        with pytest.raises(Refused, match=f"^The {re.escape(quantity.name)} must be ") as refused:
            quantity.checked(value, about="line")
        assert refused.value.about == "line"
    if not quantity.over:
        assert quantity.checked(quantity.low) == quantity.low
    if math.isfinite(quantity.high):
        assert quantity.checked(quantity.high) == quantity.high


def test_an_option_that_is_given_empty_is_not_left_out() -> None:
    assert EC.given(None) is None
    with pytest.raises(Refused, match=r"The EC is missing; write it like 1\.2"):
        EC.given("")


def test_a_bare_number_of_the_other_unit_is_asked_about() -> None:
    with pytest.raises(Refused, match="Did you mean 70F"):
        AIR.read("70")


def test_a_count_is_whole_and_in_its_range() -> None:
    assert TRAYS.read("500") == 500
    for text in ("0", "2.5", "501", "-1"):
        with pytest.raises(Refused, match="must be a whole number from 1 to 500"):
            TRAYS.read(text)
    with pytest.raises(Refused, match="from 1 to 100"):
        SLOTS.checked(101, "slots")


RANGES: dict[str, tuple[float, float, int]] = {
    "SEED": (0.01, 20_000, 2), "CUT": (0, 100_000, 1), "EXPECTED": (1, 100_000, 1),
    "SPREAD": (0, 200, 1), "TRAY_SIDE": (20, 5_000, 1), "THOUSAND": (0, 5_000, 2),
    "DENSITY": (0, 100, 2), "PURITY": (0, 100, 2), "GERMINATION": (0, 100, 2),
    "EMERGED": (0, 100, 1), "HEIGHT": (0, 2_000, 1), "WATER": (0, 50_000, 1), "PH": (0, 14, 2),
    "SOAK_PH": (0, 14, 2), "EC": (0, 20, 3), "STOCK": (0, 100, 6), "WANTED": (0, 100, 6),
    "VOLUME": (0, 1e7, 1), "TEMPERATURE": (-20, 60, 2), "AIR": (-20, 60, 2),
    "HUMIDITY": (0, 100, 1), "PPFD": (0, 5_000, 1), "LUX": (0, 500_000, 0),
    "LIT_HOURS": (0, 25, 2), "DAILY_LIGHT": (0, 100, 2), "WATTS": (0, 2_000, 2),
    "AMPS": (0, 100, 3), "VOLTS": (0, 1_000, 1), "BREAKER": (0, 1_000, 3),
    "LOAD": (0, 1_000, 3), "POWER_FACTOR": (0, 1, 2), "SHARE": (0, 100, 2),
    "LAMP_HEIGHT": (10, 3_000, 1), "PRICE": (0, 1_000, 4), "USUAL_SPREAD": (0, 1_000, 2),
    "DIFFERENCE": (0, 1_000, 2), "POWER": (0, 1_000, 2), "SEED_PRICE": (0, 1e6, 2),
    "HOUR_PRICE": (0, 1e6, 2), "WORK": (0, 1_440, 2), "PRIORITY": (0, 1_000, 2),
}  # fmt: skip
"""Least, most and digits as measured, in the unit that is kept (common practice, no source)."""
FROM_ABOVE = (
    "THOUSAND", "DENSITY", "PURITY", "GERMINATION", "WATER", "STOCK", "WANTED", "VOLUME", "WATTS",
    "AMPS", "VOLTS", "BREAKER", "POWER_FACTOR", "SHARE", "USUAL_SPREAD", "DIFFERENCE", "POWER",
)  # fmt: skip
"""What must be more than its least."""


@pytest.mark.parametrize("name", sorted(EVERY.keys() & RANGES.keys()))
def test_a_quantity_goes_from_its_least_to_its_most(name: str) -> None:
    quantity, (low, high, digits) = EVERY[name], RANGES[name]
    assert quantity.holds(low) is (name not in FROM_ABOVE)
    assert quantity.holds(low + 1e-3)
    assert not quantity.holds(low - 1e-9)
    assert quantity.holds(high)
    assert not quantity.holds(high * (1 + 1e-9) if math.isfinite(high) else math.nan)
    assert quantity.digits == digits


def test_a_temperature_far_from_a_room_s_is_asked_about() -> None:
    assert (AIR.usual, EVERY["TEMPERATURE"].usual) == ((5, 45), (-20, 60))


@pytest.mark.parametrize(
    ("count", "least", "most"),
    [
        ("LAMPS", 1, 200), ("RACKS", 1, 50), ("SHELVES", 1, 20), ("SLOTS", 1, 100),
        ("TRAYS", 1, 500), ("REPLICATES", 1, 5_000), ("WEEKS", 0, 52), ("LAYOUT_NUMBER", 0, 999_999),
    ],
)  # fmt: skip
def test_a_count_goes_from_its_least_to_its_most(count: str, least: int, most: int) -> None:
    kind = getattr(quantities, count)
    assert [kind.checked(end) for end in (least, most)] == [least, most]
    for beyond in (least - 1, most + 1):
        with pytest.raises(Refused, match="whole number"):
            kind.checked(beyond)


def test_a_price_is_at_most_what_the_weakest_currency_asks() -> None:
    assert quantities.PRICE.checked(Decimal(100_000)) == 100_000
    with pytest.raises(Refused, match=r"price per kWh must be 0 to 100,000, not 100001\.$"):
        quantities.PRICE.checked(Decimal(100_001))


def test_a_refusal_says_the_range_in_the_unit_that_was_asked_in() -> None:
    with pytest.raises(Refused, match=r"must be more than 0 ml and at most 50,000 ml, not 0 ml"):
        EVERY["WATER"].checked(0)
    with pytest.raises(Refused, match=r"must be more than 0 V and at most 1,000 V, not -1 V"):
        EVERY["VOLTS"].checked(-1)
    with pytest.raises(Refused, match=r"must be 0 to 500,000 lux, not -1 lux"):
        EVERY["LUX"].checked(-1)
    with pytest.raises(Refused, match=r"must be -4 to 140 °F, not 212 °F\.$"):
        EVERY["TEMPERATURE"].checked(100, "us")
    with pytest.raises(Refused, match=r"Write F after the number if it is Fahrenheit\.$"):
        EVERY["TEMPERATURE"].checked(100)


@pytest.mark.parametrize("side", ["1.99 x 50", "50 x 501", "500.1 x 50"])
def test_a_tray_s_side_is_2_cm_to_5_m(side: str) -> None:
    assert quantities.tray_size("2 x 500 cm") == (5_000, 20)
    with pytest.raises(Refused, match="side of the tray"):
        quantities.tray_size(side)
