"""Layout, tasting, weighing up and likeness."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.growing.trials.confounders import Fact, confounders
from logbook.growing.trials.criteria import Criterion, weigh_criteria
from logbook.growing.trials.layout import lay_out, shuffled
from logbook.growing.trials.tasted import Sheet
from logbook.growing.trials.tasting import blind_codes, ranks, triangle
from logbook.text import Refused


def wide(*rows: tuple[float, ...]) -> dict[str, dict[str, float]]:
    return {
        f"taster {at}": {chr(65 + column): value for column, value in enumerate(row)}
        for at, row in enumerate(rows)
    }


@pytest.mark.parametrize(("tasters", "needed"), [(6, 5), (8, 6), (12, 8), (18, 10)])
def test_triangle_table(tasters: int, needed: int) -> None:
    """ISO 4120, table of fewest right answers at 5 % (from memory; equals the binomial)."""
    assert triangle(tasters, 0).needed == needed
    assert triangle(tasters, needed).shown
    assert not triangle(tasters, needed - 1).shown


def test_triangle_chance_is_the_binomial() -> None:
    from scipy.stats import binom

    for tasters, right in ((12, 8), (12, 0), (1000, 400), (3, 3)):
        assert triangle(tasters, right).chance == pytest.approx(
            binom.sf(right - 1, tasters, 1 / 3), abs=1e-11
        )


def test_two_tasters_can_show_nothing() -> None:
    result = triangle(2, 2)
    assert result.needed is None
    assert not result.shown
    assert "nothing can be shown" in result.words
    ranked = ranks(wide((1, 2, 3), (1, 2, 3)))
    assert (ranked.p, ranked.shown) == (None, False)
    assert "nothing can be shown" in ranked.words


@pytest.mark.parametrize(("tasters", "right"), [(0, 0), (5, 6), (5, -1), (2000, 1)])
def test_impossible_triangles_are_refused(tasters: int, right: int) -> None:
    with pytest.raises(Refused):
        triangle(tasters, right)


@pytest.mark.parametrize(
    ("rows", "w", "p"),
    [
        (
            [
                (4, 3, 2, 7, 1, 6, 5),
                (4, 3, 1, 5, 6, 2, 7),
                (3, 4, 5, 7, 1, 6, 2),
                (1, 2, 5, 3, 4, 6, 7),
                (7, 3, 2, 5, 4, 1, 6),
            ],
            0.2371,
            0.3104,
        ),
        (
            [
                (7, 6, 3, 4, 5, 1, 2),
                (6, 4, 3, 2, 1, 5, 7),
                (7, 4, 6, 5, 3, 2, 1),
                (4, 7, 1, 2, 5, 6, 3),
                (7, 6, 1, 2, 5, 4, 3),
                (7, 6, 1, 5, 3, 4, 2),
                (4, 5, 3, 7, 2, 1, 6),
            ],
            0.3309,
            0.0308,
        ),
    ],
)
def test_wine_ranks(rows: list[tuple[float, ...]], w: float, p: float) -> None:
    """Published tasting reports (liquidasset.com reports 14 and 17, seen): W and its chance."""
    result = ranks(wide(*rows))
    assert result.chi_square == pytest.approx(w * len(rows) * (len(rows[0]) - 1), rel=5e-4)
    assert result.p == pytest.approx(p, abs=5e-4)


def test_colour_ranks() -> None:
    """A classroom ranking of six samples by seven panellists: χ² 34.51 (seen)."""
    result = ranks(wide(*[(1, 2, 3, 4, 5, 6)] * 6, (1, 2, 3, 4, 6, 5)))
    assert result.chi_square == pytest.approx(34.51, abs=5e-3)
    assert result.shown


def test_ranks_agree_with_scipy_with_ties() -> None:
    from scipy.stats import friedmanchisquare

    rows = [(1, 2, 2), (1, 1, 3), (2, 1, 3), (1, 3, 2), (1, 2, 3), (3, 1, 2)]
    theirs = friedmanchisquare(*zip(*rows, strict=True))
    result = ranks(wide(*rows))
    assert result.chi_square == pytest.approx(theirs.statistic)
    assert result.p == pytest.approx(theirs.pvalue)


def test_few_tasters_are_counted_not_approximated() -> None:
    """Three tasters of one mind about three samples: 6 of 216 orders agree (counted by hand)."""
    result = ranks(wide((1, 2, 3), (1, 2, 3), (1, 2, 3)))
    assert result.p_counted == pytest.approx(6 / 216)
    assert result.shown


def test_scores_turn_round_and_missing_judges_are_named() -> None:
    given_scores = wide((9, 5, 1), (8, 4, 2), (7, 6, 3))
    given_scores["late"] = {"A": 9.0}
    result = ranks(given_scores, more_is_better=True)
    assert result.samples[0].name == "A"
    assert result.left_out == ("late",)
    assert "late" in result.words


def test_nobody_minds() -> None:
    result = ranks(wide((1, 1), (1, 1), (1, 1)))
    assert result.p is None
    assert "saw no difference" in result.words


def test_blind_codes_are_distinct_and_hint_at_nothing() -> None:
    codes = blind_codes([str(at) for at in range(300)], seed=4)
    assert len(set(codes.values())) == 300
    assert all(len(code) == 3 and len(set(code)) == 3 for code in codes.values())
    assert "123" not in codes.values()
    with pytest.raises(Refused):
        blind_codes([str(at) for at in range(700)], seed=4)


def test_each_taster_has_an_own_order() -> None:
    codes = {"A": "417", "B": "283", "C": "905", "D": "614"}
    sheet = Sheet("thicker", 1, ranks=False, codes=codes, seed=1)
    drawn = [sheet.order(taster) for taster in ("one", "two", "three", "four")]
    assert len(set(drawn)) > 1
    assert all(sorted(order) == ["283", "417", "614", "905"] for order in drawn)
    assert sheet.order("One ") == drawn[0]


def test_a_layout_is_the_same_for_its_seed_on_every_python() -> None:
    """Written down once: SHA-256 (FIPS 180-4) decides, nothing of Python's."""
    order = [spot.arm for spot in lay_out(["A", "B", "C", "D"], layout_number=20260414)]
    assert order == ["B", "D", "C", "A"]


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 6), st.integers(1, 5), st.integers(1, 4), st.integers(0, 10**9))
def test_every_block_holds_every_arm(arms: int, blocks: int, replicates: int, seed: int) -> None:
    names = [f"arm {at}" for at in range(arms)]
    spots = lay_out(names, seed, [f"shelf {at}" for at in range(blocks)], replicates)
    assert spots == lay_out(names, seed, [f"shelf {at}" for at in range(blocks)], replicates)
    count = Counter((spot.block, spot.arm) for spot in spots)
    assert set(count.values()) == {replicates}
    assert len(count) == arms * blocks


def test_every_order_comes_up_about_equally_often() -> None:
    seen = Counter(shuffled("ABC", seed, "x") for seed in range(6000))
    assert len(seen) == 6
    assert all(abs(times - 1000) < 150 for times in seen.values())


@pytest.mark.parametrize(
    ("arms", "blocks", "replicates"),
    [(["A"], [""], 1), (["A", "a"], [""], 1), (["A", "B"], ["1", "1"], 1), (["A", "B"], [], 1),
     (["A", "B"], [""], 0), (["A", "B"], [""], 9999)],
)  # fmt: skip
def test_impossible_layouts_are_refused(
    arms: list[str], blocks: list[str], replicates: int
) -> None:
    with pytest.raises(Refused):
        lay_out(arms, 1, blocks, replicates)


def test_weighing_up_says_what_would_flip_it() -> None:
    result = weigh_criteria(
        [
            Criterion("yield", 3, {"A": 300, "B": 350}),
            Criterion("taste", 2, {"A": 8, "B": 6}),
        ]
    )
    assert [place.arm for place in result.places] == ["B", "A"]
    assert result.flips[0].needed in (pytest.approx(2), pytest.approx(3))
    assert "would draw level if" in result.words


def test_what_is_not_shown_counts_for_no_arm() -> None:
    result = weigh_criteria(
        [
            Criterion("yield", 5, {"A": 300, "B": 350}, shown=False),
            Criterion("cost", 1, {"A": 0.4, "B": 0.6}, more_is_better=False),
        ]
    )
    assert result.places[0].arm == "A"
    assert "No difference is shown in yield" in result.words
    nothing = weigh_criteria([Criterion("yield", 5, {"A": 300, "B": 350}, shown=False)])
    assert "no arm is ahead" in nothing.words


@pytest.mark.parametrize(
    "criteria",
    [
        [],
        [Criterion("yield", 0, {"A": 1, "B": 2})],
        [Criterion("yield", -1, {"A": 1, "B": 2}), Criterion("taste", 1, {"A": 1, "B": 2})],
        [Criterion("yield", 1, {"A": 1})],
        [Criterion("yield", 1, {"A": 1, "B": 2}), Criterion("taste", 1, {"A": 1})],
        [Criterion("yield", 1, {"A": 1, "B": float("nan")})],
    ],
)
def test_bad_criteria_are_refused(criteria: list[Criterion]) -> None:
    with pytest.raises(Refused):
        weigh_criteria(criteria)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0.1, 10), st.tuples(*[st.floats(0, 100)] * 3)),
        min_size=1,
        max_size=4,
    )
)
def test_a_flip_really_draws_level(rows: list[tuple[float, tuple[float, float, float]]]) -> None:
    def criteria(changed: dict[str, float]) -> list[Criterion]:
        return [
            Criterion(str(at), changed.get(str(at), weight), dict(zip("ABC", values, strict=True)))
            for at, (weight, values) in enumerate(rows)
        ]

    result = weigh_criteria(criteria({}))
    for flip in result.flips:
        if flip.needed > 1e-9:
            points = {
                place.arm: place.points
                for place in weigh_criteria(criteria({flip.criterion: flip.needed})).places
            }
            assert points[flip.arm] == pytest.approx(points[result.places[0].arm], abs=1e-6)


ARMS = {"101": "blue", "102": "blue", "103": "red", "104": "red"}


def test_what_differs_is_listed_with_its_values() -> None:
    found = confounders(
        ARMS,
        [
            Fact("seed lot", {"101": "L1", "102": "L1", "103": "L2", "104": "L1"}),
            Fact("water given", dict.fromkeys(ARMS, 300.0), "ml"),
            Fact("soak", {"101": 8.0, "102": 8.1, "103": 8.0, "104": 8.2}, "h", tolerance=0.5),
        ],
    )
    assert [one.fact for one in found.differences] == ["seed lot"]
    assert found.alike == ("water given", "soak")
    assert found.words == (
        "seed lot differs: could explain part of it (blue: all 2 with L1; red: 1 with L1, 1 with L2).",
    )


def test_what_always_moves_together_cannot_be_told_apart() -> None:
    found = confounders(
        ARMS,
        [
            Fact("shelf", {"101": "1", "102": "1", "103": "2", "104": "2"}),
            Fact("medium", {"101": "coir", "102": "hemp", "103": "hemp", "104": "hemp"}),
            Fact("person", {"101": "R", "102": "S", "103": "S", "104": "S"}),
        ],
        the_factor="the lamp",
    )
    assert found.together == (("the lamp", "shelf"), ("medium", "person"))
    assert any("shelf always changed together with the lamp" in line for line in found.words)
    assert any("medium and person always move together" in line for line in found.words)


def test_missing_records_are_named() -> None:
    found = confounders(
        ARMS,
        [
            Fact("pH", {"101": 6.1, "102": None, "103": 6.1, "104": 6.1}),
            Fact("mean PPFD", {}),
        ],
    )
    assert found.missing == {"pH": ("102",), "mean PPFD": ("101", "102", "103", "104")}
    assert "pH is not recorded for 1 tray (102)." in found.words
    assert "mean PPFD is not recorded for any tray." in found.words


def test_a_thirsty_look_puts_watering_on_the_list() -> None:
    """Common practice, no source: a deep red stem is usually a tray that went short of water."""
    found = confounders(
        ARMS,
        [Fact("short of water (by a look)", {"101": "no", "102": "no", "103": "yes", "104": "no"})],
    )
    assert found.differences[0].fact == "short of water (by a look)"
