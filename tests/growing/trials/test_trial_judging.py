"""What the book says of a trial: never more than the evidence, never NaN, never a bare p."""

from __future__ import annotations

import builtins
import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.growing.trials.arms import Tray, gather
from logbook.growing.trials.distributions import range_tail
from logbook.growing.trials.judging import Judgement, judge
from logbook.growing.trials.words import chance_words
from logbook.text import Refused

Weights = Mapping[str, Sequence[float | None]]

# Common practice, no source: four arms, one tray each, in g.
FOUR: Weights = {"A": [594], "B": [513], "C": [635], "D": [662]}


def trays(weights: Weights) -> list[Tray]:
    return [Tray(arm, one) for arm, several in weights.items() for one in several]


def blocks(weights: Weights) -> list[Tray]:
    return [
        Tray(arm, one, f"week {at}")
        for arm, several in weights.items()
        for at, one in enumerate(several, 1)
    ]


def numbers_of(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [one for each in value.values() for one in numbers_of(each)]
    if isinstance(value, list | tuple):
        return [one for each in value for one in numbers_of(each)]
    return [value] if isinstance(value, float) else []


def test_four_arms_of_one_tray_at_8_percent_are_one_in_eight() -> None:
    judged = judge(trays(FOUR), spread_percent=8)
    assert judged.design == "one tray"
    assert judged.chance_of_such_a_gap == pytest.approx(1 / 8, abs=0.005)
    assert "about one time in eight" in judged.words
    assert "shows no difference" in judged.words


def test_four_arms_of_one_tray_at_10_percent_are_three_in_ten() -> None:
    judged = judge(trays(FOUR), spread_percent=10)
    assert judged.chance_of_such_a_gap == pytest.approx(0.3, abs=0.01)
    assert "about three times in ten" in judged.words


@pytest.mark.parametrize("spread", [None, 1, 8, 10, 25])
def test_one_tray_per_arm_never_has_a_winner(spread: float | None) -> None:
    judged = judge(trays(FOUR), spread_percent=spread)
    assert not judged.shown
    assert not judged.told_apart
    assert (judged.anova, judged.pairs) == (None, ())
    for word in ("best arm", "winner", "The arms differ", "cut most", "cut more than every"):
        assert word not in judged.words


def test_one_tray_without_a_spread_asks_for_it() -> None:
    judged = judge(trays(FOUR))
    assert judged.chance_of_such_a_gap is None
    assert judged.trays_per_arm_to_settle is None
    assert "give that spread" in judged.words


def test_the_one_tray_chance_is_the_studentized_range() -> None:
    from scipy.stats import studentized_range

    for arms, q in ((2, 1.5), (4, 3.1), (10, 4.0)):
        assert range_tail(q, arms, math.inf) == pytest.approx(
            studentized_range.sf(q, arms, math.inf), abs=1e-9
        )


def test_unequal_spreads_get_welch_and_are_said() -> None:
    judged = judge(trays({"A": [300, 301, 299, 302, 298], "B": [250, 340, 300, 410, 280]}))
    assert judged.design == "welch"
    assert "own spread" in judged.words


def test_equal_numbers_and_like_spreads_get_one_way() -> None:
    judged = judge(trays({"A": [300, 310, 320, 305, 315], "B": [300, 312, 318, 309, 311]}))
    assert judged.design == "one way"


def test_unequal_numbers_get_welch_even_with_like_spreads() -> None:
    judged = judge(trays({"A": [300, 310, 320, 305, 315, 308], "B": [300, 312, 318, 309, 311]}))
    assert judged.design == "welch"


def test_a_plain_difference_is_named_with_gap_percent_and_interval() -> None:
    judged = judge(trays({"narrow": [300, 320, 310, 305, 309], "wide": [400, 410, 421, 407, 399]}))
    assert judged.shown
    assert judged.words.startswith("The arms differ")
    assert "more than narrow (95 % sure), 98.6 g (32 %) here" in judged.words
    assert judged.trays_per_arm_to_settle is None


def test_no_difference_says_so_and_what_would_settle_it() -> None:
    judged = judge(trays({"A": [300, 320, 310, 340], "B": [330, 300, 350, 312]}))
    assert not judged.shown
    assert "No difference between the arms is shown" in judged.words
    assert "That does not show that they are equal" in judged.words
    assert judged.trays_per_arm_to_settle is not None
    assert f"about {judged.trays_per_arm_to_settle} trays per arm" in judged.words


def test_too_hopeful_welch_is_held_back_and_said() -> None:
    """Six alike arms of four drawn trays, by whose spreads Welch's formula alone gives 0.028."""
    judged = judge(
        trays(
            {
                "A": [313, 335, 268, 337],
                "B": [291, 296, 296, 288],
                "C": [318, 275, 322, 292],
                "D": [334, 281, 306, 307],
                "E": [204, 315, 339, 303],
                "F": [321, 305, 319, 320],
            }
        )
    )
    assert judged.design == "welch"
    assert not judged.shown
    assert judged.anova is not None
    assert judged.anova.p > 0.05
    assert "Welch's formula alone gives p 0.028, which is too hopeful" in judged.words


def test_a_dead_tray_is_kept_apart_from_a_missing_one() -> None:
    judged = judge(trays({"A": [0, 250, None, 260, 255], "B": [310, 320, 330]}))
    arm = judged.arms[0]
    assert (arm.n, arm.died, arm.missing) == (3, 1, 1)
    assert arm.mean == pytest.approx(255)
    assert "1 tray of A weighed 0 g (died?)" in judged.words
    assert "1 tray of A without a weight" in judged.words


def test_a_discarded_tray_is_left_out_and_said() -> None:
    given_trays = [
        *trays({"A": [300, 310, 305], "B": [320, 330, 340]}),
        Tray("A", 12, left_out="discarded"),
    ]
    judged = judge(given_trays)
    assert judged.arms[0].n == 3
    assert "1 tray of A left out (discarded)" in judged.words


def test_all_weights_equal_is_said() -> None:
    judged = judge(trays({"A": [300, 300, 300], "B": [300, 300, 300]}))
    assert judged.anova is None
    assert "All trays weigh the same" in judged.words


def test_an_arm_without_any_spread_claims_nothing() -> None:
    judged = judge(trays({"A": [300, 300, 300], "B": [400, 405, 410]}))
    assert not judged.shown
    assert "Within A all trays weigh exactly the same" in judged.words


def test_an_arm_of_one_tray_is_set_aside() -> None:
    judged = judge(trays({"A": [900], "B": [310, 320, 330], "C": [290, 280, 295]}))
    assert "A has 1 tray: too few beside the others" in judged.words
    assert {name for pair in judged.pairs for name in (pair.a, pair.b)} == {"B", "C"}


def test_an_arm_of_two_trays_beside_many_is_set_aside() -> None:
    judged = judge(
        trays({"A": [310, 320, 330, 315], "B": [290, 280, 295, 300], "C": [400, 405], "D": [1]})
    )
    assert "C has 2 trays, D has 1 tray: too few beside the others" in judged.words
    assert {name for pair in judged.pairs for name in (pair.a, pair.b)} == {"A", "B"}


def test_one_spread_for_arms_that_spread_unlike_is_said_with_what_it_may_cost() -> None:
    judged = judge(trays({"A": [300, 340, 262], "B": [310, 318, 303], "C": [305, 300, 312]}))
    assert judged.design == "one way"
    assert "widest A, 6.5 times the narrowest, C: that may be chance" in judged.words
    assert "more than 5 times in 100, up to 11" in judged.words


def test_an_arm_without_trays_is_said() -> None:
    judged = judge(trays({"A": [300, 310], "B": [330, 345], "C": [None, 0]}))
    assert judged.arms[2].mean is None
    assert "C has no tray to compare" in judged.words


def test_a_far_tray_is_named() -> None:
    judged = judge(trays({"A": [300, 320, 310, 340, 315], "B": [330, 300, 350, 312, 31]}))
    assert "The tray of 31 g in B is far" in judged.words


@pytest.mark.parametrize(
    ("weights", "says"),
    [
        ({}, "There are no trays"),
        ({"A": [300, 310]}, "There is one arm"),
        ({"A": [300, 310], "B": [None, 0]}, "Fewer than two arms have a weighed tray"),
        ({"A": [300], "B": [-1]}, "0 g or more"),
        ({"A": [300], "B": [math.inf]}, "0 g or more"),
        ({"A": [300], "B": [math.nan]}, "0 g or more"),
        ({"A": [300], "B": [1e-30]}, "what a scale shows"),
    ],
)
def test_what_cannot_be_compared_is_refused(weights: Weights, says: str) -> None:
    with pytest.raises(Refused, match=says):
        judge(trays(weights))


@pytest.mark.parametrize("spread", [0, -3, math.nan, math.inf])
def test_a_bad_spread_is_refused(spread: float) -> None:
    with pytest.raises(Refused, match="spread"):
        judge(trays(FOUR), spread_percent=spread)


def test_arms_that_never_share_a_block_are_refused() -> None:
    parted = [Tray("A", 300, "1"), Tray("A", 310, "1"), Tray("B", 320, "2"), Tray("B", 330, "2")]
    with pytest.raises(Refused, match="never share a block"):
        judge(parted)


def test_a_missing_block_cell_is_said() -> None:
    judged = judge(blocks({"A": [300, 321, 310], "B": [330, 352, None], "C": [301, 331, 318]}))
    assert judged.design == "blocks"
    assert judged.anova
    assert judged.anova.df_error == 3
    assert "Without a weight: B in week 3" in judged.words


def test_a_weighed_tray_without_a_block_is_said() -> None:
    judged = judge([*blocks({"A": [300, 321, 310], "B": [330, 352, 347]}), Tray("A", 500, None)])
    assert "1 weighed tray without a block is left out" in judged.words


def test_gaps_that_change_from_block_to_block_are_said() -> None:
    uneven = [
        Tray(arm, weight + jitter, block)
        for arm, block, weight in (
            ("A", "1", 300), ("A", "2", 400), ("B", "1", 400), ("B", "2", 300),
        )
        for jitter in (0, 4, 8)
    ]  # fmt: skip
    assert "not the same from block to block" in judge(uneven).words


def test_arms_with_several_trays_in_a_block_are_judged_by_how_blocks_differ() -> None:
    """F = MS(arm) / MS(arm × block) of a balanced two-way table, by hand: cells 104 204 102 | 124 244 133."""
    cells = {("A", "1"): 104, ("A", "2"): 204, ("A", "3"): 102,
             ("B", "1"): 124, ("B", "2"): 244, ("B", "3"): 133}  # fmt: skip
    judged = judge(
        Tray(arm, mean + off, block) for (arm, block), mean in cells.items() for off in (-4, 0, 4)
    )
    steps = [20, 40, 31]
    mean = sum(steps) / 3
    error = sum((step - mean) ** 2 for step in steps) / 2 / 2
    assert judged.anova is not None
    assert (judged.anova.df_arm, judged.anova.df_error) == (1, 2)
    assert judged.anova.f == pytest.approx(mean**2 * 3 / 2 / error)
    # what trays spread by is that within the cells: a variance of 16 each, around 151.8 g
    assert judged.cv_percent == pytest.approx(100 * 4 / (911 / 6))
    assert "it applies to more than these blocks" in judged.words


def test_the_chance_of_one_tray_per_arm_allows_for_a_spread_that_is_hardly_known() -> None:
    from scipy.stats import studentized_range

    known, hardly = (judge(trays(FOUR), 8, spread_df=df) for df in (math.inf, 6))
    spread = 0.08 * (594 + 513 + 635 + 662) / 4
    assert hardly.chance_of_such_a_gap == pytest.approx(
        studentized_range.sf((662 - 513) / spread, 4, 6), abs=1e-6
    )
    assert (known.chance_of_such_a_gap or 1) < (hardly.chance_of_such_a_gap or 0)


def test_two_spellings_of_an_arm_are_one() -> None:
    assert len(gather([Tray("Red", 300), Tray("red ", 310)])) == 1


def test_100_arms_are_judged_with_the_heaviest_against_the_others() -> None:
    many = trays({f"arm {at}": [300 + at % 7, 310 + at % 5] for at in range(100)})
    judged = judge(many)
    assert len(judged.arms) == 100
    assert len(judged.pairs) == 99
    assert "nan" not in judged.words.casefold()


def test_without_scipy_the_extra_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def no_scipy(name: str, *args: Any, **kwargs: Any) -> Any:
        if name.partition(".")[0] == "scipy":
            raise ImportError(name)
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", no_scipy)
    with pytest.raises(Refused, match=r"pip install '\.\[stats\]'"):
        judge(trays({"A": [300, 310], "B": [330, 345]}))


@pytest.mark.parametrize(
    ("chance", "says"),
    [
        (0.0001, "less than one time in a thousand"),
        (0.125, "about one time in eight"),
        (0.05, "about one time in 20"),
        (0.2963, "about three times in ten"),
        (0.88, "about nine times in ten"),
        (0.99, "nearly every time"),
    ],
)
def test_chances_in_words(chance: float, says: str) -> None:
    assert chance_words(chance) == says


weight = st.one_of(st.none(), st.just(0.0), st.floats(0.5, 2000), st.integers(100, 110).map(float))
a_tray = st.builds(
    Tray,
    arm=st.sampled_from(["A", "B", "C", "[/]"]),
    grams=weight,
    block=st.sampled_from([None, "1", "2", "3"]),
    left_out=st.sampled_from(["", "", "", "discarded"]),
)


def judged_or_refused(some: list[Tray], spread: float | None) -> Judgement | None:
    try:
        return judge(some, spread)
    except Refused:
        return None


@settings(max_examples=150, deadline=None)
@given(st.lists(a_tray, max_size=24), st.sampled_from([None, 8.0]))
def test_any_trial_is_judged_or_refused_without_nan(some: list[Tray], spread: float | None) -> None:
    judged = judged_or_refused(some, spread)
    if judged is None:
        return
    assert all(math.isfinite(one) for one in numbers_of(asdict(judged)))
    assert not {"nan", "inf", "None"} & set(judged.words.replace(",", " ").split())
    if judged.anova is not None:
        assert 0 <= judged.anova.p <= 1
        assert judged.pairs
    if not judged.shown:
        assert not judged.told_apart
        assert "The arms differ" not in judged.words
    for pair in judged.told_apart:
        assert pair.p < 0.05
        assert pair.low > -1e-9


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.floats(50, 500), min_size=4, max_size=8, unique=True),
    st.lists(st.floats(50, 500), min_size=4, max_size=8, unique=True),
    st.sampled_from([0.1, 3.0, 28.35]),
)
def test_the_unit_of_weight_changes_nothing(
    first: list[float], second: list[float], scale: float
) -> None:
    plain = judge(trays({"A": first, "B": second}))
    scaled = judge(
        trays({"A": [one * scale for one in first], "B": [one * scale for one in second]})
    )
    if plain.anova is not None and scaled.anova is not None:
        assert scaled.anova.f == pytest.approx(plain.anova.f, rel=1e-6, abs=1e-9)
        assert scaled.shown == plain.shown
