"""Quantities as people write them. Exact factors: NIST Handbook 44, Appendix C (memory)."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.measures import (
    Units,
    ago_words,
    amount,
    grams,
    grams_words,
    length_words,
    millilitres,
    millimetres,
    range_words,
    seconds,
    span_words,
    volume_words,
)
from logbook.text import Refused


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("28", 28), ("28 g", 28), ("1.2kg", 1200), ("1,2 kg", 1200), ("½ kg", 500), ("1½ kg", 1500),
        ("1 oz", 28.349523125), ("2 lb", 907.18474), ("500 mg", 0.5), ("1 000 g", 1000), ("-3", -3),
        ("3 Kg", 3000), (".5 g", 0.5),
    ],
)  # fmt: skip
def test_weights(text: str, value: float) -> None:
    assert grams(text) == pytest.approx(value)


def test_a_bare_number_is_in_the_room_s_units() -> None:
    assert grams("2", units="us") == pytest.approx(56.69904625)
    assert millimetres("4") == 40
    assert millimetres("4", units="us") == pytest.approx(101.6)
    assert millilitres("300") == 300
    assert millilitres("10", units="us") == pytest.approx(295.735295625)
    assert grams("28 g", units="us") == 28


@pytest.mark.parametrize(("text", "value"), [("8.25in", 209.55), ("21 cm", 210), ('2"', 50.8), ("1 ft", 304.8), ("0.5m", 500)])  # fmt: skip
def test_lengths(text: str, value: float) -> None:
    assert millimetres(text) == pytest.approx(value)


@pytest.mark.parametrize(("text", "value"), [("300ml", 300), ("1.5 L", 1500), ("10 fl oz", 295.735295625), ("2 cups", 473.176473), ("1 gal", 3785.411784)])  # fmt: skip
def test_volumes(text: str, value: float) -> None:
    assert millilitres(text) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("36h", 36 * 3600), ("2.5d", 216_000), ("1d 12h", 129_600), ("90 min", 5400), ("1 day", 86_400),
        ("½ d", 43_200), ("1,5 h", 5400), ("2 weeks", 1_209_600), ("0", 0), ("45s", 45), ("60H", 216_000),
    ],
)  # fmt: skip
def test_lengths_of_time(text: str, value: int) -> None:
    assert seconds(text) == value


@pytest.mark.parametrize(
    "text", ["", "h", "36", "36x", "-2d", "4 fortnights", "nan h", "1e3h", "99999999d", "2d!", "٣"]
)
def test_no_length_of_time(text: str) -> None:
    with pytest.raises(Refused, match=r"^[^\n]+\.$"):
        seconds(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "x",
        "nan",
        "inf",
        "-inf",
        "1,500",
        "1,500.5",
        "1e400",
        "--3",
        "9" * 400,
        "[/]",
        "3 stones",
    ],
)
def test_no_weight(text: str) -> None:
    with pytest.raises(Refused, match=r"^[^\n]+\.$"):
        grams(text)


@given(st.integers(0, 3650 * 86_400))
def test_a_length_of_time_is_read_back(whole: int) -> None:
    assert seconds(span_words(whole)) == whole


@given(
    st.floats(0, 99_999, allow_nan=False).map(lambda value: round(value, 1)),
    st.sampled_from(get_args(Units)),
)
def test_a_weight_is_read_back_to_what_was_shown(value: float, units: Units) -> None:
    words = grams_words(value, units)
    again = grams(words, units=units)
    assert grams_words(again, units) == words
    assert again == pytest.approx(value, rel=0.01, abs=0.6)


@given(st.floats(0, 1e6, allow_nan=False))
def test_lengths_and_volumes_are_read_back_to_what_was_shown(value: float) -> None:
    assert length_words(millimetres(length_words(value))) == length_words(value)
    assert volume_words(millilitres(volume_words(value))) == volume_words(value)
    assert volume_words(millilitres(volume_words(value, "us")), "us") == volume_words(value, "us")


@given(st.text(max_size=30))
def test_any_text_is_a_number_or_refused(text: str) -> None:
    for read in (grams, millimetres, millilitres, seconds):
        try:
            value = read(text)
        except Refused as refused:
            assert str(refused).endswith(".")  # noqa: PT017 - both ways are fine
        else:
            assert value == value
            assert abs(value) < 1e16


@pytest.mark.parametrize(
    ("value", "words"),
    [(0, "0 min"), (59, "0 min"), (300, "5 min"), (3 * 3600, "3 h"), (47 * 3600, "47 h"), (72 * 3600, "3 days"), (-5, "0 min")],
)  # fmt: skip
def test_how_long_ago(value: float, words: str) -> None:
    assert ago_words(value) == words


def test_an_amount_keeps_its_unit() -> None:
    assert amount("5,25 %", "strength").unit == "%"
    assert amount("−2 °C", "air").value == -2


@pytest.mark.parametrize(
    ("low", "high", "metric", "us"),
    [
        (250, 320, "250–320 g", "8.8–11.3 oz"),
        (0, 1_200, "0–1200 g", "0.0–42.3 oz"),
        (1_900, 2_640, "1.9–2.6 kg", "4.2–5.8 lb"),
        (299.6, 300.4, "300 g", "10.6 oz"),
    ],
)
def test_a_range_of_weights(low: float, high: float, metric: str, us: str) -> None:
    assert range_words(low, high) == metric
    assert range_words(low, high, "us") == us


def test_a_number_goes_up_to_a_million_millions() -> None:
    assert amount("1000000000000", "x").value == 1e12
    for text in ("1000000000001", "-1000000000001", "9" * 400):
        with pytest.raises(Refused, match="far too large"):
            amount(text, "x")


def test_a_length_of_time_goes_up_to_ten_years() -> None:
    assert seconds("3650d", "length") == 3650 * 86_400
    with pytest.raises(Refused, match="ten years"):
        seconds("3650d 1h", "length")
    assert seconds("0h", "length") == 0


@pytest.mark.parametrize(
    ("grams", "metric", "us"),
    [
        (99.94, "99.9 g", "3.53 oz"),
        (100.4, "100 g", "3.54 oz"),
        (9_999, "9999 g", "22.04 lb"),
        (10_000, "10 kg", "22.05 lb"),
        (907.1, "907 g", "32 oz"),
        (907.2, "907 g", "2 lb"),
    ],
)
def test_weights_change_their_unit_where_people_do(grams: float, metric: str, us: str) -> None:
    assert (grams_words(grams), grams_words(grams, "us")) == (metric, us)
