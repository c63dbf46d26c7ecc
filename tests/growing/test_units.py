"""Quantities of the room as people write them."""

from __future__ import annotations

import contextlib
import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing import measures
from logbook.growing.quantities import (
    AIR,
    AMPS,
    EC,
    EMERGED,
    GERMINATION,
    HUMIDITY,
    LAMPS,
    LIT_HOURS,
    POWER,
    PRICE,
    SHARE,
    SPREAD,
    STOCK,
    TEMPERATURE,
    VOLTS,
    WATTS,
    Quantity,
    tray_size,
)
from logbook.text import Refused


@pytest.mark.parametrize(
    ("written", "celsius"),
    [
        ("21C", 21),
        ("21.4 °C", 21.4),
        ("21,4", 21.4),
        ("21°", 21),
        ("70F", 21.1111),  # exact: (70 − 32) / 1.8
        ("32 °F", 0),
        ("68 deg F", 20),
        ("77 fahrenheit", 25),
        ("-4F", -20),
        ("−5 c", -5),
    ],
)
def test_a_temperature_is_read_in_celsius(written: str, celsius: float) -> None:
    assert TEMPERATURE.read(written) == pytest.approx(celsius, abs=1e-4)


def test_a_bare_temperature_is_fahrenheit_in_us_units() -> None:
    assert TEMPERATURE.read("68", "us") == pytest.approx(20)


def test_a_temperature_that_must_be_fahrenheit_gets_a_hint() -> None:
    with pytest.raises(Refused, match="Did you mean 70F"):
        TEMPERATURE.read("70")


@pytest.mark.parametrize(
    ("written", "percent"),
    [("5.25 %", 5.25), ("5,25%", 5.25), ("200ppm", 0.02), ("0.1%", 0.1), ("200 mg/L", 0.02),
     ("50 g/L", 5), ("5.25 % w/v", 5.25)],
)  # fmt: skip
def test_a_strength_is_percent_weight_in_volume(written: str, percent: float) -> None:
    assert STOCK.read(written) == pytest.approx(percent)


@pytest.mark.parametrize("written", ["5.25", "105 %", "-1 %", "5 spoons", ""])
def test_an_unclear_strength_is_refused(written: str) -> None:
    with pytest.raises(Refused):
        STOCK.read(written)


@pytest.mark.parametrize(
    ("written", "size"),
    [
        ("10x20in", (508, 254)),
        ("10 × 20 in", (508, 254)),
        ("20in x 10in", (508, 254)),
        ("10 in x 20", (508, 254)),
        ("10 by 20 inches", (508, 254)),
        ('10"x20"', (508, 254)),
        ("25 x 50 cm", (500, 250)),
        ("25x50", (500, 250)),
        ("25.4cm x 20in", (508, 254)),
        # Trays are called after their inches (common practice, no source).
        ("10x20", (508, 254)),
        ("20 x 10", (508, 254)),
        ("5x5", (127, 127)),
        ("24x24", (609.6, 609.6)),
        ("24x25", (250, 240)),
        ("10x20.5", (205, 100)),
    ],
)
def test_a_tray_size_is_longer_side_first(written: str, size: tuple[float, float]) -> None:
    assert tray_size(written) == pytest.approx(size)


def test_a_bare_tray_size_is_inches_in_us_units() -> None:
    assert tray_size("10x20", "us") == pytest.approx((508, 254))
    assert tray_size("10x40.5", "us") == pytest.approx((1028.7, 254))


def test_a_tray_size_is_said_in_both_units() -> None:
    assert measures.sides_words(tray_size("10x20")) == "50.8 × 25.4 cm (20 × 10 in)"


@pytest.mark.parametrize("quantity", [GERMINATION, HUMIDITY, SHARE, SPREAD, EMERGED, POWER])
def test_a_bare_share_of_1_is_asked_about(quantity: Quantity) -> None:
    with pytest.raises(Refused, match=rf"^The {quantity.name} 0\.92 .*Did you mean 92 %\?"):
        quantity.read("0.92")
    with pytest.raises(Refused, match=r"Did you mean 100 %\?"):
        quantity.read("1")
    assert quantity.read("0.92 %") == 0.92
    assert quantity.read("1.01") == 1.01
    assert HUMIDITY.read("0") == 0


@pytest.mark.parametrize("written", ["", "10", "10x", "x", "10x20x3", "1x2mm", "0x0", "-10x20in"])
def test_an_impossible_tray_is_refused(written: str) -> None:
    with pytest.raises(Refused):
        tray_size(written)


@pytest.mark.parametrize(
    ("written", "ec"),
    [("1.2", 1.2), ("1.2 mS/cm", 1.2), ("1.2 dS/m", 1.2), ("1200 µS/cm", 1.2), ("1200 μS", 1.2),
     ("1200us/cm", 1.2)],
)  # fmt: skip
def test_conductivity_is_read_in_millisiemens(written: str, ec: float) -> None:
    assert EC.read(written) == pytest.approx(ec)


@pytest.mark.parametrize("written", ["840 ppm", "1200", "-1", "salty"])
def test_unclear_conductivity_is_refused(written: str) -> None:
    with pytest.raises(Refused):
        EC.read(written)


@pytest.mark.parametrize(
    ("written", "hours"),
    [("16", 16), ("16 h", 16), ("15h 30min", 15.5), ("15½", 15.5), ("90 min", 1.5), ("15,5", 15.5)],
)
def test_a_bare_number_of_hours_is_hours(written: str, hours: float) -> None:
    assert LIT_HOURS.read(written) == pytest.approx(hours)


@pytest.mark.parametrize("written", ["-1", "16 %", "", "long", "-3h"])
def test_hours_that_are_none_are_refused(written: str) -> None:
    with pytest.raises(Refused):
        LIT_HOURS.read(written)


def test_electrical_units() -> None:
    assert WATTS.read("0.4 kW") == pytest.approx(400)
    assert AMPS.read("160 mA") == pytest.approx(0.16)
    assert VOLTS.read("120 V") == 120
    assert PRICE.read("£0.30") == Decimal("0.30")
    assert PRICE.read("0,30 € / kWh") == Decimal("0.30")
    for read, text in [
        (WATTS.read, "-18"),
        (VOLTS.read, "0"),
        (AMPS.read, "1 volt"),
        (PRICE.read, "0.30 bananas"),
        (HUMIDITY.read, "130"),
        (HUMIDITY.read, "-1 %"),
    ]:
        with pytest.raises(Refused):
            read(text)


def test_lengths_read_as_growers_write_them() -> None:
    assert measures.millimetres("8.25in") == pytest.approx(209.55)
    assert measures.millimetres("8¼ inches") == pytest.approx(209.55)
    assert measures.millimetres("8 ¼ in") == pytest.approx(209.55)
    assert measures.millimetres("21 cm") == 210
    assert measures.millilitres("2 gallons") == pytest.approx(7570.823568)
    assert measures.millilitres("10 litres") == 10_000


def test_a_space_groups_thousands_only() -> None:
    assert measures.grams("1 500 g") == 1500
    with pytest.raises(Refused):
        measures.grams("28 5 g")


def test_a_number_under_one_may_have_three_decimals_after_a_comma() -> None:
    assert measures.grams("0,125 kg") == 125
    with pytest.raises(Refused, match="two ways"):
        measures.grams("1,125 kg")


def test_counts() -> None:
    assert LAMPS.read("4") == 4
    for text in ("0", "-1", "2.5", "99999"):
        with pytest.raises(Refused, match="whole number from 1"):
            LAMPS.read(text)


def test_words() -> None:
    assert measures.hours_words(16 + 2 / 3) == "16 h 40 min"
    assert measures.hours_words(0.4) == "24 min"
    assert measures.hours_words(24) == "24 h"
    assert measures.temperature_words(20) == "20 °C"
    assert measures.temperature_words(20, "us") == "68 °F"


@given(st.text(max_size=60))
def test_any_text_is_read_as_a_finite_number_or_refused(text: str) -> None:
    for read in (
        TEMPERATURE.read,
        HUMIDITY.read,
        STOCK.read,
        EC.read,
        LIT_HOURS.read,
        WATTS.read,
        PRICE.read,
    ):
        with contextlib.suppress(Refused):
            assert math.isfinite(read(text))
    with contextlib.suppress(Refused):
        assert all(math.isfinite(side) for side in tray_size(text))


@given(st.floats(-20, 60))
def test_fahrenheit_and_celsius_agree(celsius: float) -> None:
    written = f"{celsius * 1.8 + 32:.6f}F"
    try:
        read = TEMPERATURE.read(written)
    except Refused:
        assert not -19.999 < celsius < 59.999
    else:
        assert read == pytest.approx(celsius, abs=1e-5)


@pytest.mark.parametrize(
    ("text", "units", "celsius"),
    [
        ("21.4", "metric", 21.4),
        ("70", "us", 21.1111),
        ("-6C", "metric", -6),
        ("21.4 F", "us", -5.8889),
        ("5", "metric", 5),
        ("113", "us", 45),
    ],
)
def test_the_air_of_a_room_is_read(text: str, units: measures.Units, celsius: float) -> None:
    assert AIR.read(text, units) == pytest.approx(celsius, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "units", "said"),
    [
        ("21.4", "us", "21.4 °F would be odd .* write the unit too, 21.4C or 21.4F"),
        ("-6", "metric", "-6 °C would be odd .* write the unit too, -6C or -6F"),
        ("46°", "metric", "46 °C would be odd .* write the unit too, 46C or 46F"),
        ("70", "metric", "Did you mean 70F"),
    ],
)
def test_air_that_may_be_in_the_other_unit_is_asked_about(
    text: str, units: measures.Units, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        AIR.read(text, units)
