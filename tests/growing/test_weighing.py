"""Cut weights, and what is expected of a tray."""

from __future__ import annotations

import math
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.yields import Expected, OwnWeights, expected_weight
from logbook.growing.trays.weighing import against_usual, checked_grams, question, share_out
from logbook.text import Refused

USUAL = Expected(300.0, 45.0, 12, guess=False)


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
    assert against_usual(324, USUAL) == "8 % above the middle"
    assert against_usual(150, USUAL) == "50 % below the middle"
    assert against_usual(300, USUAL) == "on the middle"
    assert against_usual(300, None) == ""


def test_a_guess_is_taught_by_the_room_s_own_trays() -> None:
    # the mean of a normal sample with a prior worth three observations (Gelman et al.,
    # Bayesian Data Analysis, 2.5, memory): (3 × 300 + 360 + 380 + 340) / 6 = 330
    taught = expected_weight(300, 20, OwnWeights((360, 380, 340)))
    assert taught is not None
    assert taught.grams == pytest.approx(330)
    assert taught.spread_grams == pytest.approx(66)
    assert taught.rests_on == "3 trays of this room"


def test_from_six_trays_on_the_spread_is_the_room_s_own() -> None:
    weights = [300.0, 320, 280, 310, 290, 300]
    taught = expected_weight(500, 20, OwnWeights(tuple(weights)))
    assert taught is not None
    assert taught.spread_grams == pytest.approx(stdev(weights))
    assert mean(weights) < taught.grams < 500


def test_a_tray_that_died_is_a_loss_and_no_yield() -> None:
    assert expected_weight(300, 20, OwnWeights((0.0, 0.0))) == expected_weight(
        300, 20, OwnWeights()
    )
    assert expected_weight(None, 20, OwnWeights((0.0,))) is None


def test_where_nothing_is_known_the_words_say_so() -> None:
    guess = expected_weight(300, 20, OwnWeights())
    own = expected_weight(300, 20, OwnWeights(), guess=False)
    assert guess is not None
    assert own is not None
    assert (guess.rests_on, own.rests_on) == ("starting guess", "template")
    assert (guess.low, guess.high) == (240, 360)


@given(st.lists(st.floats(1, 5000), max_size=40), st.floats(1, 5000), st.floats(0, 100))
def test_the_expectation_lies_between_the_guess_and_what_was_cut(
    weights: list[float], guess: float, spread: float
) -> None:
    expected = expected_weight(guess, spread, OwnWeights(tuple(weights)))
    assert expected is not None
    lowest, highest = min([guess, *weights]), max([guess, *weights])
    assert lowest - 1e-6 <= expected.grams <= highest + 1e-6
    assert expected.spread_grams >= 0
    assert expected.trays == len(weights)


def test_no_tray_is_expected_to_weigh_less_than_nothing() -> None:
    wide = expected_weight(100, 150, OwnWeights())
    assert wide is not None
    assert (wide.low, wide.high) == (0, 250)


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
    tiny = Expected(1.0, 0.1, 12, guess=False)
    assert "4 times the expected 1 g" in question(4, tiny)
    assert against_usual(1.5, tiny) == "50 % above the middle"
    nothing = Expected(0.0, 0.0, 0, guess=False)
    assert (against_usual(5, nothing), question(5, nothing)) == ("", "")


def test_shares_differ_by_a_tenth_and_the_first_have_more() -> None:
    assert share_out(100.3, 4) == (25.1, 25.1, 25.1, 25.0)
    assert share_out(0, 3) == (0, 0, 0)


def test_a_tray_teaches_from_its_first_gram_and_six_teach_the_spread() -> None:
    five = expected_weight(None, 20, OwnWeights((0.5,) * 5, (1.5,) * 5))
    assert five is not None
    assert (five.grams, five.trays, five.spread_grams) == (1.0, 10, 0.2)
    six = expected_weight(None, 20, OwnWeights((0.5, 1.5, 0.5, 1.5, 0.5, 1.5)))
    assert six is not None
    assert six.spread_grams == pytest.approx(math.sqrt(6 * 0.25 / 5))
    assert (six.rests_on, six.basis) == ("6 trays of this room", "6 trays")
