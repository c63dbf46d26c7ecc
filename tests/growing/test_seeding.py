"""Seed for a tray."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.germination import germination_words, least_germination
from logbook.growing.crops.seeding import seed_need, tray_area_cm2
from logbook.growing.quantities import tray_size
from logbook.text import Refused

TRAY = tray_area_cm2(*tray_size("10x20in"))


def test_the_tray_of_the_trade() -> None:
    length, width = tray_size("10x20in")
    assert tray_area_cm2(length, width) == pytest.approx(1290.32)  # exact, from the inch


def test_small_seed_on_a_tray() -> None:
    # Density: UF/IFAS, Bolles 2019 (seen); the rest computed: 2,400 seeds, 7.68 g of live seed.
    need = seed_need(1.86, TRAY, 3.2, purity_percent=99, germination_percent=90)
    assert need.seeds == pytest.approx(2400, abs=0.5)
    assert need.seeds_sown == pytest.approx(2666.7, abs=0.5)
    assert need.grams == pytest.approx(7.68 / (0.99 * 0.90), abs=0.001)
    assert seed_need(1.86, TRAY, 3.2).grams == pytest.approx(7.68, abs=0.001)
    assert "8.62 g per tray" in need.words


@pytest.mark.parametrize(
    ("crop", "least"),
    # 7 CFR 201.31 (seen).
    [
        ("pea shoots", 80), ("Peas", 80), ("radish", 75), ("Radishes, daikon", 75),
        ("broccoli", 75), ("red cabbage", 75), ("kale", 75), ("mustard", 75),
        ("garden cress", 75), ("cress", 75), ("watercress", 40), ("beet", 65), ("Swiss chard", 65),
        ("Chinese cabbage", 75), ("lettuce", 80), ("spinach", 60), ("turnip", 80), ("carrot", 55),
        ("sunflower", None), ("basil", None), ("coriander", None), ("rocket", None),
        ("amaranth", None), ("chickpea", None), ("", None),
    ],
)  # fmt: skip
def test_least_germination(crop: str, least: int | None) -> None:
    assert least_germination(crop) == least


def test_a_poor_lot_is_said() -> None:
    words = germination_words("broccoli", 70)
    assert words is not None
    assert "75 %" in words
    assert "7 CFR 201.31" in words
    assert germination_words("broccoli", 75) is None
    assert germination_words("basil", 20) is None


@pytest.mark.parametrize(
    ("density", "area", "weight", "purity", "germination"),
    [(0, 100, 3, 99, 90), (-1, 100, 3, 99, 90), (2, 0, 3, 99, 90), (2, 100, 0, 99, 90),
     (2, 100, 3, 0, 90), (2, 100, 3, 99, 101), (float("nan"), 100, 3, 99, 90)],
)  # fmt: skip
def test_impossible_seed_is_refused(
    density: float, area: float, weight: float, purity: float, germination: float
) -> None:
    with pytest.raises(Refused):
        seed_need(density, area, weight, purity, germination)


def test_other_impossible_numbers_are_refused() -> None:
    with pytest.raises(Refused):
        tray_area_cm2(0, 100)


@given(
    st.floats(0.01, 20),
    st.floats(10, 10_000),
    st.floats(0.1, 500),
    st.floats(1, 100),
    st.floats(1, 100),
)
def test_more_seed_is_sown_than_grows(
    density: float, area: float, weight: float, purity: float, germination: float
) -> None:
    need = seed_need(density, area, weight, purity, germination)
    assert need.seeds_sown >= need.seeds * 0.999999
