"""Evenness of a shelf's light."""

from __future__ import annotations

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.room.light import Grid, Spot, uniformity
from logbook.text import Refused


def test_nine_readings() -> None:
    # Computed by hand and with the standard library's statistics module (n−1).
    even = uniformity([180, 200, 220, 190, 210, 230, 170, 200, 200])
    assert even.mean == pytest.approx(200)
    assert even.min_over_mean == pytest.approx(0.85)
    assert even.min_over_max == pytest.approx(0.739, abs=0.0005)
    assert even.cv_percent == pytest.approx(9.354, abs=0.0005)


def test_spread_agrees_with_a_nist_reference_set() -> None:
    # NIST StRD, univariate set NumAcc2: 1.2, then 1.1 and 1.3 in turn, 1,001 numbers; certified
    # mean 1.2, standard deviation 0.1 (from memory).
    even = uniformity([1.2, *[1.1, 1.3] * 500])
    assert even.mean == pytest.approx(1.2, rel=1e-12)
    assert even.sd == pytest.approx(0.1, rel=1e-12)


def test_one_reading_says_nothing_of_evenness() -> None:
    even = uniformity([200])
    assert (even.sd, even.cv_percent) == (None, None)
    assert "three spots" in even.words


def test_a_dark_shelf_has_no_ratios() -> None:
    even = uniformity([0, 0, 0])
    assert (even.min_over_mean, even.min_over_max, even.cv_percent) == (None, None, None)
    assert even.words == "no light at any spot"


@pytest.mark.parametrize("bad", [-5.0, float("nan"), float("inf"), 20_000.0])
def test_an_impossible_reading_is_refused(bad: float) -> None:
    with pytest.raises(Refused, match="light reading"):
        uniformity([200, bad])


def test_no_reading_is_refused() -> None:
    with pytest.raises(Refused, match="at least one"):
        uniformity([])


def test_a_spot_outside_the_grid_is_refused() -> None:
    grid = Grid(rows=2, columns=3)
    grid.check([Spot(1, 1, 100), Spot(2, 3, 100)])
    with pytest.raises(Refused, match="row 3, column 1 is outside the grid of 2 rows"):
        grid.check([Spot(3, 1, 100)])
    with pytest.raises(Refused, match="twice"):
        grid.check([Spot(1, 1, 100), Spot(1, 1, 120)])
    with pytest.raises(Refused, match="1 to 20 rows"):
        Grid(0, 3)


@given(st.lists(st.floats(0, 5000), min_size=2, max_size=60))
def test_ratios_lie_between_nothing_and_one(ppfds: list[float]) -> None:
    even = uniformity(ppfds)
    assert even.least <= even.mean <= even.most
    for ratio in (even.min_over_mean, even.min_over_max):
        assert ratio is None or 0 <= ratio <= 1
    assert even.sd == pytest.approx(statistics.stdev(ppfds))


@given(st.lists(st.floats(1, 500), min_size=2, max_size=20), st.floats(0.1, 9))
def test_evenness_does_not_depend_on_the_scale(ppfds: list[float], times: float) -> None:
    one, other = uniformity(ppfds), uniformity([value * times for value in ppfds])
    assert other.cv_percent == pytest.approx(one.cv_percent, abs=1e-6)
    assert other.min_over_mean == pytest.approx(one.min_over_mean)
