"""Seed for a tray."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.seeding import (
    LEAST_GERMINATION,
    germination_words,
    least_germination,
    pure_live_share,
    seed_need,
    tray_area_cm2,
)
from logbook.growing.quantities import tray_size
from logbook.text import Refused

TRAY = tray_area_cm2(*tray_size("10x20in"))


def test_the_tray_of_the_trade() -> None:
    length, width = tray_size("10x20in")
    assert tray_area_cm2(length, width) == pytest.approx(1290.32)  # exact, from the inch


@pytest.mark.parametrize(
    ("purity", "germination", "share", "bulk"),
    [
        (85, 75, 0.6375, 1.569),  # TxDOT (seen)
        (96, 80, 0.768, 1.302),  # a seed house's leaflet (seen)
        (98, 97, 0.9506, 1.052),  # 92 % germination and 5 % hard seed, a seed leaflet (seen)
        (89, 92, 0.819, 1.221),  # 1,221 for 1,000 pounds, a seed house's sheet (seen)
    ],
)
def test_pure_live_seed(purity: float, germination: float, share: float, bulk: float) -> None:
    found = pure_live_share(purity, germination)
    assert found == pytest.approx(share, abs=0.0005)
    assert 1 / found == pytest.approx(bulk, abs=0.001)


def test_small_seed_on_a_tray() -> None:
    # Density: UF/IFAS, Bolles 2019 (seen); the rest computed: 2,400 seeds, 7.68 g of live seed.
    need = seed_need(1.86, TRAY, 3.2, purity_percent=99, germination_percent=90)
    assert need.seeds == pytest.approx(2400, abs=0.5)
    assert need.seeds_sown == pytest.approx(2666.7, abs=0.5)
    assert need.grams == pytest.approx(7.68 / (0.99 * 0.90), abs=0.001)
    assert seed_need(1.86, TRAY, 3.2).grams == pytest.approx(7.68, abs=0.001)
    assert "8.62 g a tray" in need.words


def test_a_published_sowing_of_a_tray() -> None:
    # A university trial of three microgreens (seen): 125 seeds in each of 24 cells, 3,000 to a
    # 20 × 10 in flat, which is 2.325 per cm².
    assert seed_need(2.325, TRAY, 2).seeds == pytest.approx(24 * 125, abs=1)


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


LEAST = {
    40: "watercress",
    50: "chive",
    55: "carrot, celeriac, celery",
    60: "burdock, cardoon, dandelion, dill, leek, parsley, parsnip, sage, spinach, upland cress",
    65: "beet, chard, chicory, sorrel",
    70: "asparagus, brussels sprout, cornsalad, endive, onion",
    75: "broadbean, broccoli, cabbage, cauliflower, chinese cabbage, chinese kale, cowpea, garden cress, kale, kohlrabi, mustard, pak choi, radish, rutabaga, salsify, soybean, spinach mustard, sweet corn",
    80: "collard, lettuce, pea, turnip",
}
"""7 CFR 201.31 (seen) once more, by percent."""


def test_the_table_of_least_germination_was_copied_without_a_slip() -> None:
    every = {kind: percent for percent, kinds in LEAST.items() for kind in kinds.split(", ")}
    assert every == LEAST_GERMINATION
