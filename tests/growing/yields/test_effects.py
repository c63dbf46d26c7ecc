"""Effects of lateness against a general library, and how seldom one is seen where there is none."""

import math
import random
from statistics import geometric_mean

import pytest

from logbook.growing.yields.effects import BatchSeen, effects

CROPS = ("radish", "pea", "basil")


def batches(luck: random.Random, effect: float, count: int = 30) -> list[BatchSeen]:
    """Batches of three crops; 6 h of late lights take so much of the logarithm, shelves nothing."""
    found = []
    for place in range(count):
        late = luck.choice([0.0, 0.0, 3.0, 6.0, 12.0])
        grams = 100 * (1 + place % 3) * math.exp(luck.gauss(0, 0.08) + effect * late / 6)
        factors = {"lights late": late, "Rack 1/Shelf 1": float(luck.random() < 0.5)}
        found.append(BatchSeen(CROPS[place % 3], 4, grams, factors))
    return found


def test_as_a_general_library_has_it() -> None:
    """Numpy's least squares with a dummy for each crop, and scipy's t, half of 5 % for each of two factors."""
    stats = pytest.importorskip("scipy.stats")
    import numpy as np

    mine = batches(random.Random(3), -0.10)
    (late,) = [one for one in effects(mine) if one.factor == "lights late"]
    x = np.array(
        [[one.factors["lights late"], *(float(one.crop == crop) for crop in CROPS)] for one in mine]
    )
    slopes, rest, _, _ = np.linalg.lstsq(x, np.log([one.grams for one in mine]), rcond=None)
    error = math.sqrt(rest[0] / 26 * np.linalg.inv(x.T @ x)[0, 0])
    within = stats.t.ppf(1 - 0.05 / 4, 26) * error
    assert late.percent == pytest.approx(100 * math.expm1(6 * slopes[0]))
    assert late.low_percent == pytest.approx(100 * math.expm1(6 * (slopes[0] - within)))
    assert late.high_percent == pytest.approx(100 * math.expm1(6 * (slopes[0] + within)))
    assert late.seen
    assert (late.batches, late.trays) == (30, 120)


def test_as_a_mixed_model_has_it() -> None:
    """Statsmodels 0.15.0, run by hand on these trays, as many of each batch.

    mixedlm("log ~ C(crop) + late", groups="batch"), REML: slope -0.0128202781 an hour, its standard
    error 0.0046549526. 2.144787 is Student's t for 2.5 % and 14 degrees of freedom (NIST tables).
    """
    pytest.importorskip("scipy")
    luck, mine = random.Random(5), list[BatchSeen]()
    for batch in range(18):
        late, own = (0.0, 0.0, 3.0, 6.0, 12.0, 9.0)[batch % 6], luck.gauss(0, 0.08)
        trays = [
            round(100 * (1 + batch % 3) * math.exp(own - 0.015 * late + luck.gauss(0, 0.05)), 1)
            for _ in range(4)
        ]
        seen = {"lights late": late}
        mine.append(BatchSeen(CROPS[batch % 3], 4, geometric_mean(trays), seen))
    (late_lights,) = effects(mine)
    for percent, slope in (
        (late_lights.percent, -0.0128202781),
        (late_lights.low_percent, -0.0128202781 - 2.144787 * 0.0046549526),
        (late_lights.high_percent, -0.0128202781 + 2.144787 * 0.0046549526),
    ):
        assert percent == pytest.approx(100 * math.expm1(6 * slope), rel=1e-5)


def test_a_false_effect_is_seldom_seen() -> None:
    """At most 1 table in 20 has one, as is said; 300 simulated tables, so 5 % \u00b1 2.5."""
    pytest.importorskip("scipy")
    luck = random.Random(8)
    false = sum(any(one.seen for one in effects(batches(luck, 0.0, 24))) for _ in range(300))
    assert false / 300 < 0.075


def test_what_cannot_be_told() -> None:
    pytest.importorskip("scipy")
    luck = random.Random(1)
    assert effects([]) == []
    assert effects(batches(luck, -0.1, 9)) == []
    same = [BatchSeen("radish", 4, 300.0 + place, {"lights late": 2.0}) for place in range(20)]
    assert effects(same) == []
    (shelf, late) = sorted(effects(batches(luck, 0.0)), key=lambda one: one.factor)
    assert "no effect" in late.words
    assert "no effect" in shelf.words
    assert late.more_trays is None or late.more_trays % 10 == 0
