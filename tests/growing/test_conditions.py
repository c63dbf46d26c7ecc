"""What shelf, seed and season do to weights: against a general library, and where there is nothing."""

import math
import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import product

import pytest

from logbook.growing.crops.conditions import (
    BATCH_SHARES,
    NONE,
    SHELF_SPREADS,
    Conditions,
    Shifts,
    Weighed,
    learnt,
    shifts_of,
)
from logbook.growing.crops.luck import Guess, Load, batch_weights, luck_of
from logbook.growing.crops.yields import Meant, expect

START = datetime(2024, 1, 1, tzinfo=UTC)


def room(
    luck: random.Random, *, shelf: float = 0.0, seed: float = 0.0, season: float = 0.0,
    batches: int = 20, apart: int = 4,
) -> list[Weighed]:  # fmt: skip
    """Batches of six on three shelves, the first of which gives so much more, as a logarithm."""
    found = []
    for batch in range(batches):
        at = START + timedelta(days=batch * apart)
        grams = luck.choice((24.0, 30.0, 38.0)) if seed else 30.0
        here = luck.gauss(0, 0.08) + seed * math.log(grams / 30)
        here += season * math.cos(2 * math.pi * (at - START).days / 365.25)
        found += [
            Weighed(
                batch, 300 * math.exp(here + luck.gauss(0, 0.09) + shelf * (tray % 3 == 0)),
                Conditions(f"Shelf {1 + tray % 3}", grams, at),
            )
            for tray in range(6)
        ]  # fmt: skip
    return found


def test_shelves_as_a_general_library_has_them() -> None:
    """Numpy: the best linear unbiased prediction with the whole matrix of variances inverted."""
    import numpy as np

    mine = room(random.Random(4), shelf=0.15)
    own = batch_weights((one.batch, math.log(one.grams), False) for one in mine)
    tray = sum(each.squares for each in own) / sum(each.df for each in own)
    of_batch = np.var([each.mean for each in own], ddof=1) - tray / 6
    count = len(mine)
    same = np.array([[one.batch == other.batch for other in mine] for one in mine])
    shelves = np.array(
        [[one.had.shelf == f"Shelf {each}" for each in (1, 2, 3)] for one in mine], dtype=float
    )
    y = np.log([one.grams for one in mine])
    best, effects = -math.inf, np.zeros(3)
    for share, spread in product(BATCH_SHARES, SHELF_SPREADS):
        whole = tray * np.eye(count) + share * of_batch * same + spread**2 * shelves @ shelves.T
        inverse = np.linalg.inv(whole)
        weight = inverse.sum()
        rest = y - (inverse.sum(axis=0) @ y) / weight
        # the likelihood of what is left when the mean is taken out (REML)
        log = -(np.linalg.slogdet(whole)[1] + math.log(weight) + rest @ inverse @ rest) / 2
        if log > best:
            best, effects = log, spread**2 * shelves.T @ inverse @ rest
    found = dict(shifts_of(mine).shelves)
    for place, effect in enumerate(effects - effects.mean(), 1):
        assert found[f"Shelf {place}"] == pytest.approx(effect, abs=6e-4)
    assert found["Shelf 1"] - found["Shelf 2"] == pytest.approx(0.15, abs=0.04)


def test_where_there_is_nothing_little_is_told() -> None:
    """At most 1 room in 20 is said to have shelves that differ, as is said; 200 rooms, ± 3."""
    luck = random.Random(5)
    found = [shifts_of(room(luck)) for _ in range(200)]
    assert sum(bool(one.shelves) for one in found) <= 16
    assert all(one.seed is None and one.season is None for one in found)
    false = [abs(effect) for one in found for _, effect in one.shelves]
    assert max(false, default=0.0) < 0.08


def test_seed_and_seasons_are_found_and_shrunk() -> None:
    luck = random.Random(6)
    seed = [shifts_of(room(luck, seed=0.5)).seed for _ in range(20)]
    powers = [one[0] for one in seed if one is not None]
    assert len(powers) >= 18
    assert sum(powers) / len(powers) == pytest.approx(0.5, abs=0.06)
    season = [learnt(room(luck, season=0.12, batches=60, apart=21)).season for _ in range(20)]
    waves = [one[0] for one in season if one is not None]
    assert len(waves) >= 18
    assert 0.08 < sum(waves) / len(waves) < 0.13


@pytest.mark.parametrize(
    "trays",
    [
        [],
        room(random.Random(1), shelf=0.3, batches=5),
        [Weighed(each % 9, 300.0, Conditions("A" if each % 2 else "B")) for each in range(54)],
        [Weighed(each, 0.0, Conditions("A")) for each in range(20)],
        [one._replace(had=Conditions()) for one in room(random.Random(1))],
    ],
    ids=["none", "few batches", "all equal", "nothing weighed", "nothing known"],
)
def test_what_cannot_be_told(trays: list[Weighed]) -> None:
    assert shifts_of(trays) == NONE
    assert replace(learnt(trays), seed_grams=None) == NONE


def test_a_crop_sown_often_follows_the_season_by_itself() -> None:
    assert learnt(room(random.Random(7), season=0.12, batches=200, apart=4)).season is None


def test_a_tray_of_a_better_shelf_counts_more() -> None:
    """Two trays of one new batch at 1.1 and 0.9 of the mean are as two of it, but for their own luck."""
    luck = luck_of(
        Guess(None, 10),
        batch_weights((each // 4, 300.0 + each % 4 * 20, False) for each in range(24)),
    )
    assert luck is not None
    shelves = Shifts((("A", math.log(1.1)), ("B", math.log(0.9))))
    factors = [shelves.factor(Conditions(shelf)) for shelf in ("A", "B", "C")]
    assert factors == [1.1, 0.9, 1.0]
    a, b, c = (expect([Meant(luck, -1, factor=each, by=shelves.names)]) for each in factors)
    assert a is not None and b is not None and c is not None  # noqa: PT018 - all alike
    assert a.grams == pytest.approx(1.1 * c.grams)
    assert a.high - a.low == pytest.approx(1.1 * (c.high - c.low))
    assert a.rests_on == "from 6 batches here, by shelf"
    both = luck.sum_of((Load(-1, 2.0, 1.1**2 + 0.9**2),))
    even = luck.sum_of((Load(-1, 2.0, 2.0),))
    assert both.grams == even.grams
    assert both.variance > even.variance


def test_trays_sown_with_other_seed_than_those_weighed_are_told() -> None:
    told = Shifts(seed_grams=36.0)
    seeds = (None, 34.0, 39.0, 50.0, 20.0)
    assert [told.other_seed(grams) for grams in seeds] == ["", "", "", "less seed", "more seed"]
    allowed = replace(told, seed=(0.4, 3.6))
    assert [allowed.other_seed(50.0), Shifts().other_seed(50.0)] == ["", ""]
