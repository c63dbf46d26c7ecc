"""Cut weights, and what is expected of a tray."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.yields import Expected
from logbook.growing.trays.weighing import against_usual, checked_grams, question, share_out
from logbook.text import Refused

USUAL = Expected(300.0, 45.0, 240.0, 360.0, 12, 3)


@pytest.mark.parametrize("grams", [-0.1, -300, math.nan, math.inf, -math.inf, 100_001])
def test_an_impossible_weight_is_refused(grams: float) -> None:
    with pytest.raises(Refused, match="weight of tray 101 must be 0 to 100,000 g"):
        checked_grams(grams, 101)


@pytest.mark.parametrize(
    ("grams", "asked"),
    [
        (300, False),
        (120, False),
        (749, False),
        (900, True),
        (3000, True),
        (1200, True),
        (30, True),
        (0, True),
    ],
)
def test_an_implausible_weight_is_questioned(grams: float, asked: bool) -> None:
    assert bool(question(grams, USUAL)) is asked


def test_without_an_expectation_only_the_extremes_are_questioned() -> None:
    assert question(400, None) == ""
    assert "is that right" in question(6000, None)
    assert "did the tray die" in question(0, None)


@given(st.integers(1, 1_000_000), st.integers(1, 50))
def test_a_shared_weight_adds_up_to_what_the_scale_said(tenths: int, trays: int) -> None:
    shares = share_out(tenths / 10, trays)
    assert len(shares) == trays
    assert round(sum(shares) * 10) == tenths
    assert max(shares) - min(shares) < 0.1 + 1e-9


def test_against_the_usual_weight() -> None:
    assert against_usual(324, USUAL) == "8 % above expected"
    assert against_usual(150, USUAL) == "50 % below expected"
    assert against_usual(300, USUAL) == "as expected"
    assert against_usual(300, None) == ""


def test_a_question_names_how_odd_a_weight_is() -> None:
    assert question(30, USUAL) == ("30 g is a tenth or less of the expected 300 g: is that right?")
    assert question(75, USUAL) == (
        "75 g is a quarter or less of the expected 300 g: is that right?"
    )
    assert question(75.1, USUAL) == question(749, USUAL) == ""
    assert question(750, USUAL) == "750 g is 2.5 times the expected 300 g: is that right?"
    assert question(1200, USUAL) == "1200 g is 4 times the expected 300 g: is that right?"
    assert question(5_000, None) == question(1, None) == ""
    assert "a lot for one tray" in question(5_000.1, None)
    # where a tray is expected to weigh a gram
    tiny = Expected(1.0, 0.1, 0.9, 1.1, 12, 3)
    assert "4 times the expected 1 g" in question(4, tiny)
    assert against_usual(1.5, tiny) == "50 % above expected"
    nothing = Expected(0.0, 0.0, 0.0, 0.0)
    assert (against_usual(5, nothing), question(5, nothing)) == ("", "")


def test_shares_differ_by_a_tenth_and_the_first_have_more() -> None:
    assert share_out(100.3, 4) == (25.1, 25.1, 25.1, 25.0)
    assert share_out(0, 3) == (0, 0, 0)
