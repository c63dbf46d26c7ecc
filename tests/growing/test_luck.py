"""Luck of batches and trays: what is expected of sums, and that the ranges hold what they say."""

from __future__ import annotations

import math
from collections.abc import Iterable
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.growing.crops.luck import Guess, Luck, batch_weights, luck_of, new_batches, t_of_80
from logbook.growing.crops.yields import Expected, Meant, expect, luck_of_harvest
from tests.room import field_test

BATCHES = ((310, 290, 305), (360, 342), (271, 290, 280, 300), (330, 310))


def luck(*batches: tuple[float, ...], guess: Guess | None = None) -> Luck:
    weights = [(number, grams, False) for number, each in enumerate(batches, 1) for grams in each]
    found = luck_of(guess, batch_weights(weights))
    assert found is not None
    return found


def said(of: Luck, *batches: int) -> Expected:
    found = expect(Meant(of, batch) for batch in batches)
    assert found is not None
    return found


def test_a_template_s_guess_is_outweighed_by_the_room_s_own_batches() -> None:
    guess = Guess(500, 20)
    means = [said(luck(*BATCHES[:count], guess=guess), 9).grams for count in range(5)]
    assert means[0] == pytest.approx(500)
    assert all(mean < 400 for mean in means[1:]), "one sowing outweighs it"
    assert means[4] == pytest.approx(305, abs=20)


def test_what_it_is_based_on_is_said() -> None:
    assert said(luck(guess=Guess(300, 15)), 1).rests_on == "from the template's guess"
    own = said(luck(*BATCHES), 9)
    assert (own.rests_on, own.basis, own.trays) == ("from 4 batches here", "4 batches", 11)
    both = expect(Meant(luck(*BATCHES, guess=Guess(grams, 15)), 9) for grams in (300, 320))
    assert both is not None
    assert (both.basis, both.trays) == ("4 batches", 11), "two versions of one template"


def test_trays_of_one_sowing_share_their_luck() -> None:
    of = luck(*BATCHES)
    one, ten = said(of, 9), said(of, *[9] * 10)
    apart = said(of, *range(11, 21))
    assert ten.grams == pytest.approx(10 * one.grams) == apart.grams
    assert 10**0.5 * one.spread_grams < apart.spread_grams < ten.spread_grams
    assert ten.spread_grams < 10 * one.spread_grams


def test_the_rest_of_a_batch_is_judged_by_what_was_cut_of_it() -> None:
    of = luck(*BATCHES)
    rest, strangers = said(of, *[2] * 5), said(of, *[9] * 5)
    assert strangers.grams / 5 < rest.grams / 5 < 351, "between the mean and its own"
    assert rest.high - rest.low < strangers.high - strangers.low


def test_crops_share_no_luck_and_what_is_not_known_is_left_out() -> None:
    one, other = luck(*BATCHES), luck(*BATCHES, guess=Guess(300, 15))
    alone = [said(one, 9), said(other, 9)]
    both = expect([Meant(one, 9), Meant(other, 9), Meant(None, 9)])
    assert both is not None
    assert both.spread_grams == pytest.approx(math.hypot(*(each.spread_grams for each in alone)))
    assert expect([Meant(None, 9)]) is None
    assert expect([]) is None


def test_what_was_cut_already_is_no_longer_to_come() -> None:
    of = luck(*BATCHES)
    whole, rest = said(of, 9), expect([Meant(of, 9, 100.0)])
    assert rest is not None
    assert (rest.low, rest.high) == (whole.low - 100, whole.high - 100)
    gone = expect([Meant(of, 9, 900.0)])
    assert gone is not None
    assert (gone.low, gone.grams, gone.high) == (0, 0, 0)


def test_a_dead_tray_is_a_loss_and_a_share_says_nothing_of_the_luck_of_trays() -> None:
    (batch,) = batch_weights([(1, 300, False), (1, 0, False), (1, 320, True), (1, 320, True)])
    assert (batch.trays, batch.df) == (3, 1)
    assert batch.mean == pytest.approx(940 / 3)
    crop = field_test(expected_grams=None)
    assert luck_of_harvest(crop, batch_weights([(1, 0.0, False)])) is None
    assert luck_of_harvest(crop, (batch,)) is not None


@given(
    st.lists(st.lists(st.floats(1, 5000), min_size=1, max_size=6), max_size=8),
    st.floats(1, 5000),
    st.floats(0, 200),
)
def test_the_mean_lies_between_the_guess_and_what_was_cut(
    batches: list[list[float]], guess: float, spread: float
) -> None:
    of = luck(*map(tuple, batches), guess=Guess(guess, spread))
    every = [guess, *(grams for each in batches for grams in each)]
    for named in (0, 1):
        found = said(of, named)
        assert min(every) - 1e-6 <= found.grams <= max(every) + 1e-6
        assert 0 <= found.low <= found.grams <= found.high


def test_t_is_as_in_a_table() -> None:
    """Against scipy.special.stdtrit."""
    special = pytest.importorskip("scipy.special")
    for df in (1, 1.3, 1.7, 2, 2.5, 3, 5, 7.7, 15, 40, 1000, 1e9):
        assert t_of_80(df) == pytest.approx(float(special.stdtrit(df, 0.9)), rel=1e-4)


def holds(draws: int, sizes: tuple[int, ...], counts: tuple[int, ...]) -> float:
    """How often the range holds the sum of new trays, %, in rooms whose luck is half the batches'."""
    chance, hits = Random(13), 0
    for _ in range(draws):
        mean = chance.gauss(300, 45)
        past = [
            [chance.gauss(batch, 24) for _ in range(size)]
            for size in sizes
            for batch in [chance.gauss(mean, 24)]
        ]
        to_come = [
            sum(chance.gauss(batch, 24) for _ in range(count))
            for count in counts
            for batch in [chance.gauss(mean, 24)]
        ]
        of = luck(*map(tuple, past), guess=Guess(300, 15))
        found = of.sum_of(new_batches(counts))
        within = found.within
        hits += abs(sum(to_come) - found.grams) <= within
    return 100 * hits / draws


@pytest.mark.parametrize("sizes", [(), (3,), (4, 3, 3), (5,) * 6])
@pytest.mark.parametrize("counts", [(1,), (10,), (5, 5)])
def test_a_range_holds_four_times_in_five(sizes: tuple[int, ...], counts: tuple[int, ...]) -> None:
    """300 draws each: a true 80 % is then counted as 73 to 87 in 99 of 100 seeds."""
    assert 73 <= holds(300, sizes, counts) <= 88


def test_newer_sowings_count_more_in_the_mean_of_now() -> None:
    sowings = ((6, 340.0), (5, 320.0), (4, 300.0), (3, 280.0))
    rising = [(batch, grams, False) for batch, grams in sowings for _ in range(4)]

    def now(guess: Guess | None, weights: Iterable[tuple[int, float, bool]]) -> float:
        luck = luck_of(guess, batch_weights(weights))
        assert luck is not None
        return luck.sum_of(new_batches((1,))).grams

    assert now(None, rising) == pytest.approx(310.0)  # a calculator's lines are in no order
    assert now(Guess(300.0, 20.0), rising) > 310.0 > now(Guess(300.0, 20.0), reversed(rising))
