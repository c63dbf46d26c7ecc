"""Every unit of the tables, by its exact size. NIST Handbook 44, Appendix C (from memory)."""

from __future__ import annotations

import pytest

from logbook.growing import measures
from logbook.growing.measures import Scale
from logbook.text import Refused

SIZES: dict[str, tuple[Scale, dict[str, float]]] = {
    "g": (measures.grams, {
        "g": 1, "gr": 1, "gram": 1, "grams": 1, "kg": 1000, "mg": 0.001, "oz": 28.349523125,
        "ounce": 28.349523125, "lb": 453.59237, "lbs": 453.59237, "pounds": 453.59237,
    }),
    "mm": (measures.millimetres, {
        "mm": 1, "cm": 10, "m": 1000, "in": 25.4, "″": 25.4, '"': 25.4, "ft": 304.8,
        "inch": 25.4, "inches": 25.4, "foot": 304.8, "feet": 304.8,
    }),
    "ml": (measures.millilitres, {
        "ml": 1, "cl": 10, "dl": 100, "l": 1000, "litre": 1000, "liter": 1000,
        "floz": 29.5735295625, "cup": 236.5882365, "pt": 473.176473, "pint": 473.176473,
        "qt": 946.352946, "quart": 946.352946, "gal": 3785.411784, "gallon": 3785.411784,
    }),
    "%": (measures.percent, {"%": 1, "percent": 1, "pct": 1, "": 1}),
    "% w/v": (measures.strength, {
        "%": 1, "percent": 1, "pct": 1, "% w/v": 1, "ppm": 1e-4, "mg/l": 1e-4, "g/l": 0.1,
    }),
    "mS/cm": (measures.conductivity, {
        "mS/cm": 1, "mS": 1, "dS/m": 1, "µS/cm": 0.001, "uS/cm": 0.001, "µS": 0.001, "us": 0.001,
    }),
    "W": (measures.watts, {"W": 1, "watt": 1, "watts": 1, "kW": 1000}),
    "A": (measures.amps, {"A": 1, "amp": 1, "amps": 1, "ampere": 1, "mA": 0.001}),
    "V": (measures.volts, {"V": 1, "volt": 1, "volts": 1}),
    "h": (measures.hours, {"": 1, "h": 1, "min": 1 / 60, "d": 24, "hours": 1}),
    "ppfd": (measures.light, {
        "": 1, "ppfd": 1, "µmol": 1, "umol": 1, "µmol/m2/s": 1, "µmol/m²/s": 1, "umol/m2/s": 1,
    }),
    "lux": (measures.lux, {"": 1, "lux": 1, "lx": 1}),
    "mol": (measures.moles, {"": 1, "mol": 1, "mol/m2": 1, "mol/m²": 1}),
    "area": (measures.per_area, {"": 1, "/cm2": 1, "/cm²": 1, "per cm2": 1, "per cm²": 1}),
    "plain": (measures.plain, {"": 1}),
}  # fmt: skip


@pytest.mark.parametrize("name", SIZES)
def test_a_unit_has_its_size(name: str) -> None:
    scale, sizes = SIZES[name]
    read = {unit: scale(f"3 {unit}") for unit in sizes}
    assert read == {unit: pytest.approx(3 * size, rel=1e-12) for unit, size in sizes.items()}
    with pytest.raises(Refused, match='unknown unit "stone"' if name != "h" else "like 36h"):
        scale("3 stone")


@pytest.mark.parametrize(
    ("unit", "length"),
    [
        ("s", 1), ("sec", 1), ("second", 1), ("seconds", 1), ("min", 60), ("m", 60), ("mins", 60),
        ("minute", 60), ("minutes", 60), ("h", 3600), ("hr", 3600), ("hrs", 3600), ("hour", 3600),
        ("hours", 3600), ("d", 86_400), ("day", 86_400), ("days", 86_400), ("w", 604_800),
        ("week", 604_800), ("weeks", 604_800),
    ],
)  # fmt: skip
def test_a_unit_of_time_has_its_length(unit: str, length: int) -> None:
    assert measures.seconds(f"2 {unit}") == 2 * length


def test_freezing_and_boiling_are_32_and_212_fahrenheit() -> None:
    for unit in ("F", "fahrenheit", "°F", "deg F", "degrees F"):
        assert measures.celsius(f"32 {unit}") == 0
        assert measures.celsius(f"212 {unit}") == pytest.approx(100)
    assert measures.celsius("100 celsius") == measures.celsius("100 C") == 100


@pytest.mark.parametrize(
    ("mark", "value"),
    [("½", 0.5), ("¼", 0.25), ("¾", 0.75), ("⅓", 1 / 3), ("⅔", 2 / 3), ("⅛", 0.125)],
)
def test_a_fraction_stands_alone_or_behind_a_whole(mark: str, value: float) -> None:
    assert measures.amount(mark, "x").value == value
    assert measures.amount(f"2{mark}", "x").value == 2 + value
    assert measures.amount(f"-2{mark}", "x").value == -2 - value


@pytest.mark.parametrize(
    ("written", "value"),
    [("0,125", 0.125), ("12,34", 12.34), ("1234,567", 1234.567), ("1,5000", 1.5), ("012,345", 12.345)],
)  # fmt: skip
def test_a_comma_that_groups_no_thousands_is_a_decimal_one(written: str, value: float) -> None:
    assert measures.amount(written, "x").value == value
    for unclear in ("1,234", "12,345", "123,456"):
        with pytest.raises(Refused, match="two ways"):
            measures.amount(unclear, "x")


@pytest.mark.parametrize(
    ("value", "metric", "us"),
    [
        (0, "0 ml", "0 floz"), (999, "999 ml", "33.8 floz"), (1000, "1 L", "33.8 floz"),
        (1234, "1.23 L", "41.7 floz"), (0.4, "0 ml", "0 floz"), (-1500, "-1.5 L", "-50.7 floz"),
    ],
)  # fmt: skip
def test_a_volume_is_written_in_litres_from_one_on(value: float, metric: str, us: str) -> None:
    assert (measures.volume_words(value), measures.volume_words(value, "us")) == (metric, us)


@pytest.mark.parametrize(
    ("value", "metric", "us"), [(40, "4 cm", "1.57 in"), (4.44, "0.4 cm", "0.17 in")]
)
def test_a_length_is_written_to_the_millimetre(value: float, metric: str, us: str) -> None:
    assert (measures.length_words(value), measures.length_words(value, "us")) == (metric, us)


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (0, "0h"), (59, "59s"), (61, "61s"), (90 * 60, "90min"), (3600, "1h"), (86_400, "1d"),
        (25 * 3600, "25h"), (71 * 3600, "71h"), (3 * 86_400, "3d"), (73 * 3600, "3d 1h"),
        (3599.6, "1h"),
    ],
)  # fmt: skip
def test_a_length_of_time_is_written_as_people_enter_it(seconds: float, words: str) -> None:
    assert measures.span_words(seconds) == words


@pytest.mark.parametrize(
    ("seconds", "words", "brief"),
    [
        (59, "0 min", "0 min"), (3599, "59 min", "59 min"), (3600, "1 h", "1 h"),
        (48 * 3600 - 1, "47 h", "47 h"), (48 * 3600, "2 days", "2 d"), (95 * 3600, "3 days", "3 d"),
    ],
)  # fmt: skip
def test_how_long_ago_is_said_roughly(seconds: float, words: str, brief: str) -> None:
    assert (measures.ago_words(seconds), measures.ago_words(seconds, brief=True)) == (words, brief)


@pytest.mark.parametrize(
    ("hours", "words"),
    [(0, "0 min"), (0.5, "30 min"), (0.999, "1 h"), (1, "1 h"), (1.5, "1 h 30 min"), (25, "25 h")],
)
def test_hours_are_said_to_the_minute(hours: float, words: str) -> None:
    assert measures.hours_words(hours) == words


def test_a_written_value_keeps_four_digits_and_groups_for_reading_only() -> None:
    assert measures.grams.write(12_345.67891) == "12345.6789 g"
    assert measures.grams.write(12_345.67891, grouped=True) == "12,345.6789 g"
    assert measures.grams.write(20_000, grouped=True) == "20,000 g"
    assert measures.plain.write(7) == "7"
    assert measures.celsius.write(21, "us") == "69.8 °F"
    assert measures.millimetres.write(40) == "4 cm"
    assert (measures.number_words(2.5), measures.number_words(2.04), measures.number_words(100, 0)) == (
        "2.5", "2", "100",
    )  # fmt: skip
