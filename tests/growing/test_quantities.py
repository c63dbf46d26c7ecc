"""Every quantity of the table: what it writes is read back, its range is kept and said."""

from __future__ import annotations

import math
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
        with pytest.raises(Refused, match=f"^The {quantity.name} must be ") as refused:
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
