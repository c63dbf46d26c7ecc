"""Dilution, and what to mind."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.room.products import cautions, product_kind
from logbook.growing.room.solutions import dilute, strength_words
from logbook.text import Refused

PPM_200 = 0.02


@pytest.mark.parametrize(("stock", "per_litre"), [(5.25, 3.810), (6, 3.333), (8.25, 2.424)])
def test_two_hundred_ppm_from_three_bleaches(stock: float, per_litre: float) -> None:
    # Computed, weight in volume.
    made = dilute(stock, PPM_200, 1000)
    assert made.stock_ml == pytest.approx(per_litre, abs=0.0005)
    assert made.water_ml == pytest.approx(1000 - per_litre, abs=0.0005)


def test_peroxide_for_a_soak() -> None:
    # Computed: 12 % thinned to 3 % is 1 part to 3 parts of water.
    made = dilute(12, 3, 1000)
    assert (made.stock_ml, made.parts_water) == (250, 3)
    assert made.words().startswith("250 ml of 12 % stock into 750 ml of water makes 1 L at 3 %")


def test_stock_as_strong_as_wanted_needs_no_water() -> None:
    assert dilute(3, 3, 500).water_ml == 0


def test_what_cannot_be_made_is_refused() -> None:
    with pytest.raises(Refused, match="water only thins"):
        dilute(0.01, 0.02, 1000)
    for stock, want, volume in [(0, 0.1, 1000), (101, 1, 1000), (5, 0, 1000), (5, 0.1, 0)]:
        with pytest.raises(Refused):
            dilute(stock, want, volume)


def test_strengths_are_written_as_people_say_them() -> None:
    assert strength_words(5.25) == "5.25 %"
    assert strength_words(0.02) == "200 ppm"


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("household bleach", "chlorine"),
        ("Sodium hypochlorite", "chlorine"),
        ("hydrogen peroxide 3 %", "peroxide"),
        ("peroxyacetic acid", "peroxyacetic"),
        ("white vinegar", "acid"),
        ("pH down", "acid"),
        ("isopropyl alcohol", "alcohol"),
        ("quat cleaner", "quat"),
        ("", "other"),
        ("soap", "other"),
    ],
)
def test_a_products_kind_is_guessed_from_its_name(name: str, kind: str) -> None:
    assert product_kind(name) == kind


@pytest.mark.parametrize(
    "kind", ["chlorine", "peroxide", "peroxyacetic", "acid", "alcohol", "quat", "other"]
)
def test_every_product_gets_the_grave_cautions(kind: str) -> None:
    said = " ".join(cautions(kind))  # type: ignore[arg-type]
    for words in ("label is the law", "Never mix bleach with acid, vinegar, ammonia or peroxide"):
        assert words in said
    for words in ("gloves", "window"):
        assert words in said


def test_strength_brings_its_own_caution_first() -> None:
    assert "goggles" in cautions("peroxide", 35, 3)[0]
    assert "80 ppm" in cautions("peroxyacetic", 5, 0.0085)[0]  # 21 CFR 173.315 (seen)
    assert "200 ppm" in cautions("chlorine", 5.25, 0.05)[0]
    assert "label is the law" in cautions("chlorine", 5.25, PPM_200)[0]
    assert "50 to 200 ppm" in " ".join(cautions("chlorine"))  # USDA GAP audit (seen)


@given(st.floats(0.01, 100), st.floats(0.0001, 1), st.floats(1, 1e6))
def test_what_goes_in_comes_out(stock: float, share: float, volume: float) -> None:
    made = dilute(stock, stock * share, volume)
    assert made.volume_ml == pytest.approx(volume)
    assert min(made.stock_ml, made.water_ml) >= 0
    assert made.stock_ml / volume == pytest.approx(share)
