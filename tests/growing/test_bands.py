"""A number beside its limit is written with the digits that tell them apart."""

from __future__ import annotations

import pytest

from logbook.growing.bands import Band
from logbook.growing.room.light import guessed, lamp_kind


@pytest.mark.parametrize(
    ("band", "value", "said"),
    [
        (Band(low=80), 79.96, "79.96"),
        (Band(low=80), 80, "80"),
        (Band(high=16), 16.004, "16.004"),
        (Band(5.5, 6.5), 6.44, "6.4"),
    ],
)
def test_what_misses_a_limit_does_not_look_like_it(band: Band, value: float, said: str) -> None:
    assert band.told(value) == said


def test_an_estimate_from_little_lux_keeps_two_figures_of_its_range() -> None:
    """White LED, ± 15 %."""
    assert "0.1 (0.087 to 0.118) µmol" in guessed(0.1, lamp_kind("white LED")).words
