"""Vapour pressure deficit and dew point against two outside authorities."""

from __future__ import annotations

from datetime import UTC, datetime

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.room.air import (
    AirReading,
    air_words,
    dew_point_c,
    leaf_vpd_kpa,
    saturation_kpa,
    vapour_kpa,
    vpd_kpa,
)
from logbook.text import Refused

psychrolib.SetUnitSystem(psychrolib.SI)

temperatures = st.floats(-20, 60)
humidities = st.floats(0.1, 100)


def test_a_days_vapour_pressure_of_fao_56() -> None:
    # FAO-56 example 5 (from memory): 18 °C at 82 %, 25 °C at 54 % → 1.70 kPa.
    vapour = (vapour_kpa(18, 82) + vapour_kpa(25, 54)) / 2
    assert vapour == pytest.approx(1.70, abs=0.005)


GRID = [(15 + step, 40 + 6.5 * other) for step in range(20) for other in range(10)]


@pytest.mark.parametrize(("celsius", "humidity"), GRID)
def test_two_hundred_points_of_ashrae(celsius: float, humidity: float) -> None:
    # psychrolib (ASHRAE Handbook Fundamentals 2017), 15–34 °C, 40–98.5 %, computed at test time.
    saturated = psychrolib.GetSatVapPres(celsius) / 1000
    vapour = psychrolib.GetVapPresFromRelHum(celsius, humidity / 100) / 1000
    assert vpd_kpa(celsius, humidity) == pytest.approx(saturated - vapour, abs=0.005)
    assert dew_point_c(celsius, humidity) == pytest.approx(
        psychrolib.GetTDewPointFromRelHum(celsius, humidity / 100), abs=0.05
    )


def test_the_grid_has_two_hundred_points() -> None:
    assert len(set(GRID)) == 200


def test_the_driest_air_has_no_dew_point() -> None:
    assert dew_point_c(20, 0) is None
    assert "no dew point" in air_words(20, 0)


def test_a_leaf_under_the_dew_point_is_wet() -> None:
    # 21 °C and 55 %: dew point 11.62 °C (psychrolib, computed).
    assert leaf_vpd_kpa(21, 55, 11) < 0 < leaf_vpd_kpa(21, 55, 12.5)
    assert "dew forms" in air_words(21, 55, 11)
    assert "dew forms" not in air_words(21, 55, 20)


@pytest.mark.parametrize(
    ("celsius", "humidity"),
    [(21.0, 130.0), (21.0, -1.0), (70.0, 50.0), (-40.0, 50.0), (float("nan"), 50.0),
     (21.0, float("nan"))],
)  # fmt: skip
def test_impossible_air_is_refused(celsius: float, humidity: float) -> None:
    with pytest.raises(Refused):
        vpd_kpa(celsius, humidity)
    with pytest.raises(Refused):
        AirReading(datetime(2026, 4, 14, tzinfo=UTC), celsius, humidity)


@given(temperatures, humidities)
def test_the_dew_point_undoes_the_saturation_formula(celsius: float, humidity: float) -> None:
    dew = dew_point_c(celsius, humidity)
    assert dew is not None
    assert dew <= celsius + 1e-9
    if dew >= -20:
        assert saturation_kpa(dew) == pytest.approx(vapour_kpa(celsius, humidity))


@given(temperatures, humidities)
def test_a_leaf_as_warm_as_the_air_feels_the_airs_deficit(celsius: float, humidity: float) -> None:
    assert vpd_kpa(celsius, humidity) >= 0
    assert leaf_vpd_kpa(celsius, humidity, celsius) == pytest.approx(vpd_kpa(celsius, humidity))
