"""Where the rules of trials begin and end: tasters, ranks, spreads, replicates, money, settings."""

from __future__ import annotations

import math

import pytest
from scipy.stats import f

from logbook.growing.currencies import Currency
from logbook.growing.numbers import life
from logbook.growing.trials.arms import Arm, Tray, gather, room_spread
from logbook.growing.trials.chart import chart
from logbook.growing.trials.criteria import Criterion, weigh_criteria
from logbook.growing.trials.factors import (
    ArmDraft,
    adopted,
    arms_from,
    factor_words,
    mark_of,
    setting_of,
    with_setting,
)
from logbook.growing.trials.judging import judge
from logbook.growing.trials.layout import lay_out
from logbook.growing.trials.money import costs_of, per_tray
from logbook.growing.trials.replicates import (
    DIFFERENCES,
    detectable_difference,
    power_of,
    table,
    trays_per_arm,
)
from logbook.growing.trials.tasting import by_guessing, ranks, triangle
from logbook.growing.trials.verdict import judgeable, verdict
from logbook.text import Refused
from tests.room import field_test

# Tasting


def test_one_taster_may_take_part_and_shows_nothing() -> None:
    assert [triangle(1, right).needed for right in (0, 1)] == [None, None]
    assert triangle(1, 1).words.startswith("With 1 taster nothing can be shown")
    assert triangle(1000, 0).needed == 359
    with pytest.raises(Refused, match="1 taster cannot give 2 right answers; give a number from 0"):
        triangle(1, 2)


def test_three_right_of_three_is_the_least_that_shows_a_difference() -> None:
    """(1/3)³ = 3.7 %, where 5 % are asked for; of two it is 11 %."""
    assert by_guessing(2) == pytest.approx([1, 5 / 9, 1 / 9])
    three = triangle(3, 3)
    assert (three.needed, three.shown) == (3, True)
    assert three.words == (
        "Some tasters can tell them apart: 3 of 3 were right and 3 are enough. Guessing alone "
        "gives 3 or more right about one time in 30. It does not say which is better."
    )
    assert triangle(3, 2).words.endswith("That does not show that they are the same.")


def test_ranks_are_sums_and_means_the_best_first() -> None:
    given = {
        "x": {"A": 3, "B": 1, "C": 2},
        "y": {"A": 3, "B": 1, "C": 2},
        "z": {"A": 3, "B": 2, "C": 1},
    }
    found = ranks(given)
    assert [(one.name, one.rank_sum) for one in found.samples] == [("B", 4), ("C", 5), ("A", 9)]
    assert found.samples[0].mean_rank == pytest.approx(4 / 3)
    assert (found.tasters, found.df, found.left_out) == (3, 2, ())
    assert "B, then C, then A" in found.words
    # χ² = 12/(n·k·(k+1))·Σ(R−n(k+1)/2)² = 12/36·(4+1+9) = 14/3 (Friedman 1937)
    assert found.chi_square == pytest.approx(14 / 3)
    with pytest.raises(Refused, match="two samples or more"):
        ranks({"x": {"A": 1}})
    with pytest.raises(Refused, match="No taster judged every sample"):
        ranks({"x": {"A": 1}, "y": {"B": 1}})


def test_ties_share_their_mean_rank() -> None:
    found = ranks({name: {"A": 5, "B": 5, "C": 1} for name in "xyz"}, more_is_better=True)
    assert [(one.name, one.mean_rank) for one in found.samples] == [
        ("A", 1.5),
        ("B", 1.5),
        ("C", 3),
    ]
    two = ranks({name: {"A": 1, "B": 2} for name in "xy"})
    assert (two.chi_square, two.p_counted, two.df) == (None, None, None)


def test_up_to_five_samples_are_counted() -> None:
    def of(samples: int) -> float | None:
        row = {chr(65 + at): float(at) for at in range(samples)}
        return ranks(dict.fromkeys("xyz", row)).p_counted

    assert of(2) == pytest.approx(2 / 8)  # all three alike, either way round
    assert of(4) == pytest.approx(24 / 24**3)
    assert of(5) == pytest.approx(120 / 120**3)
    assert of(6) is None


# Spread, replicates, power


def test_the_smallest_weight_above_nothing_is_one() -> None:
    sowings = {
        1: (0.5, 1.5, 1.0),
        2: (0.25, 0.75),
        3: (100.0,),
        4: (0.0, 2.0),
        5: (3.0, 3.0, 3.0, 3.0),
    }
    found = room_spread(sowings, 20)
    # Σ (x/mean − 1)²: 0.25 + 0.25 + 0.25 + 0.25 over 2 + 1 + 3 degrees of freedom
    assert found.percent == pytest.approx(100 * math.sqrt(1 / 6))
    assert (found.trays, found.sowings) == (9, 3)
    assert found.words == "40.8 % from tray to tray (9 trays of 3 sowings of this room)"
    few = room_spread({1: (0.5, 1.5)}, 17.5)
    assert (few.percent, few.trays, few.sowings) == (17.5, 0, 0)
    assert few.words.startswith("17.5 % from tray to tray (the template's figure")
    assert room_spread({1: (3.0,) * 9}, 17).trays == 0


def test_the_table_of_gaps() -> None:
    assert DIFFERENCES == (5, 10, 15, 20, 25, 30, 40)
    assert [(row.difference, row.trays_per_arm) for row in table(8, (10.0, 20.0))] == [
        (10, 11), (20, 4),
    ]  # fmt: skip
    assert [trays_per_arm(8, 10, arms=arms) for arms in (2, 3)] == [11, 11]
    assert trays_per_arm(1, 100) == 2
    for power, says in ((0.05, "more than 5"), (1.0, "less than 100"), (0.051, ""), (0.999, "")):
        if says:
            with pytest.raises(Refused, match=says):
                trays_per_arm(8, 10, power)
        else:
            assert trays_per_arm(8, 10, power) is not None


@pytest.mark.parametrize("trays", [2, 3, 4, 9, 10])
@pytest.mark.parametrize("arms", [2, 3])
def test_what_is_seen_of_few_trays_has_the_power_that_is_usual(trays: int, arms: int) -> None:
    seen = detectable_difference(8, trays, arms=arms)
    assert seen is not None
    assert power_of(trays, seen / 8, arms) == pytest.approx(0.8, abs=1e-6)
    assert power_of(trays, seen / 16, arms) < power_of(trays, seen / 8, arms)


# Arms, judging, layout


def test_what_counts_of_an_arm() -> None:
    (arm,) = gather(
        [
            Tray("a", 0.5), Tray("a", 1.5), Tray("a", 0.0), Tray("a", None),
            Tray("a", 9.0, left_out="torn"), Tray("A ", 1.0),
        ]
    )  # fmt: skip
    assert (arm.weights, arm.died, arm.missing, arm.left_out) == ((0.5, 1.5, 1.0), 1, 1, ("torn",))
    assert (arm.mean, arm.variance, arm.sd) == (1.0, 0.25, 0.5)
    assert (Arm("b", (1.0,)).variance, Arm("b", ()).mean, Arm("b", (1.0,)).sd) == (None, None, None)
    (height,) = gather([Tray("a", 0.0, zero_counts=True), Tray("a", 2.0, zero_counts=True)])
    assert (height.mean, height.died) == (1.0, 0)
    for grams in (1e-6, 1e15):
        assert gather([Tray("a", grams)])[0].n == 1
    for grams in (0.9e-6, 1.1e15):
        with pytest.raises(Refused, match="what a scale shows"):
            gather([Tray("a", grams)])


def test_arms_of_three_trays_are_held_against_each_other_where_there_are_two() -> None:
    three, four, two, one = (Arm(str(n), tuple(map(float, range(1, n + 1)))) for n in (3, 4, 2, 1))
    assert judgeable([three, four, two, one]) == (three, four)
    assert judgeable([three, two, one]) == (three, two)
    assert judgeable([three, one]) == (three, one)
    assert judgeable([three, Arm("x", ())]) == (three,)


@pytest.mark.parametrize("trays", [2, 3, 5, 10])
def test_spreads_are_alike_unless_chance_would_part_them_less_than_1_time_in_20(trays: int) -> None:
    """Two sample variances of one normal population: their ratio is F(n−1, n−1), both ways round."""
    limit = math.sqrt(f.isf(0.025, trays - 1, trays - 1))
    base = [(-1) ** at * (1 + at // 2) for at in range(trays)]
    first = Arm("a", tuple(1000.0 + one for one in base))
    for times, design in ((0.99 * limit, "one way"), (1.01 * limit, "welch")):
        assert (
            verdict([first, Arm("b", tuple(1000.0 + times * one for one in base))]).design == design
        )


def test_unequal_numbers_get_their_own_spreads_from_five_trays_on() -> None:
    six, five, four = (
        Arm(str(trays), tuple(300.0 + (-1) ** at * (1 + at // 2) for at in range(trays)))
        for trays in (6, 5, 4)
    )
    assert [verdict(arms).design for arms in ([six, five], [six, four])] == ["welch", "one way"]


def test_a_block_alone_is_none_and_two_are() -> None:
    def of(*blocks: str) -> str:
        return judge(
            [Tray(arm, 300.0 + 7 * at + (arm == "b") * (20 + at % 2), block)
             for arm in "ab" for at, block in enumerate(blocks)]
        ).design  # fmt: skip

    assert of("1", "1", "1") == "one way"
    assert of("1", "2", "3") == "blocks"


def test_a_layout_of_5000_trays_is_the_largest_and_positions_begin_at_one() -> None:
    assert len(lay_out(["A", "B"], 1, [""], 2_500)) == 5_000
    with pytest.raises(Refused, match="up to 5,000 trays"):
        lay_out(["A", "B"], 1, ["1", "2"], 1_251)
    assert [spot.position for spot in lay_out(["A", "B"], 1, ["x"], 2)] == [1, 2, 3, 4]
    assert [spot.arm for spot in lay_out(["A", "B"], 1)] == [
        spot.arm for spot in lay_out(["A", "B"], 1, ("",), 1)
    ]


# Criteria, money, settings, chart


def test_points_go_from_nothing_to_ten_and_a_tie_is_five() -> None:
    found = weigh_criteria(
        [
            Criterion("yield", 2, {"A": 300, "B": 325, "C": 350}),
            Criterion("cost", 1, {"A": 1.0, "B": 2.0, "C": 3.0}, more_is_better=False),
            Criterion("taste", 1, {"A": 5, "B": 5, "C": 5}),
        ]
    )
    assert {place.arm: place.points for place in found.places} == {
        "C": 6.25, "B": 5, "A": 3.75,
    }  # fmt: skip
    assert found.words.startswith(
        "By your priorities C comes first with 6.2 of 10 points, before B with 5."
    )
    # C leads A by 2.5 of 10: level where cost weighs what yield does
    flip = next(one for one in found.flips if one.criterion == "cost")
    assert [flip.needed, flip.weight] == pytest.approx([2, 1])
    level = weigh_criteria([Criterion("yield", 1, {"A": 1, "B": 1})])
    assert level.words == "By your priorities A and B are level."
    assert level.flips == ()
    sure = weigh_criteria([Criterion("yield", 1, {"A": 1, "B": 2})])
    assert sure.words.endswith("No change of a single priority would put another arm first.")


def test_money_is_said_from_half_a_thousandth_on() -> None:
    def words(gap: float, **more: object) -> str:
        parts = {"seed": {"a": 1.0, "b": 1.0 + gap}}
        return costs_of({"a": 100, "b": 100}, parts, shown=True, **more).words  # type: ignore[arg-type]

    assert words(0.01) == (
        "Per 100 g cut, seed costs: a 1.000 and b 1.010. b costs 0.010 more than a."
    )
    yen = Currency("JPY")
    assert "a 1.0 JPY and b 1.1 JPY. b costs 0.1 JPY more" in words(0.1, money=yen)
    assert "more than" not in words(0.04, money=yen)
    assert "more than" not in words(0.0004)
    assert "more than" in words(0.00051)
    assert words(0, missing=["work"]).endswith("Not included, because not known: work.")
    parts = {"seed": {"a": 1.0, "b": 1.0}, "light": {"a": 0.5, "b": 0.5}}
    alike = costs_of({"a": 100, "b": 300}, parts, shown=False)
    assert alike.per_100_g == {"a": 0.75, "b": 0.75}
    assert alike.words.startswith("Per 100 g cut, seed and light cost: a 0.750 and b 0.750 (the")
    none = costs_of({}, parts, shown=True, missing=["work"], notes=["Well."])
    assert (
        none.words == "Nothing can be said about costs: seed, light and work are not known. Well."
    )


def test_trays_of_which_a_cost_is_not_known_are_named() -> None:
    known = [(1, "a", 2.0, ""), (2, "a", 4.0, "")]
    others = [(3, "a", None, "no lamps"), (5, "b", None, "no tariff"), (4, "b", None, "no tariff")]
    means, notes = per_tray("light", [*known, *others])
    assert means == {"a": 3.0}
    assert notes == [
        "Light is not known for tray 3 (a): no lamps; the average of the arm's other trays is used.",
        "Light is not known for trays 4 5 (b): no tariff.",
    ]
    twice = [(life(7, tray), arm, None, "no lamps") for tray, arm in ((31, "a"), (52, "b"))]
    assert per_tray("light", twice)[1] == [
        "Light is not known for trays 7 7 (a and b): no lamps."
    ], "one number, two trays"


def test_arms_are_two_to_five_hundred_with_names_of_their_own() -> None:
    assert [arm.name for arm in arms_from(["thick = 34 g", "thin"])] == ["thick", "thin"]
    assert len(arms_from([f"a{at}" for at in range(500)])) == 500
    for texts, says in (
        (["a"], "two arms or more"),
        ([f"a{at}" for at in range(501)], "up to 500"),
        (["a", "A "], "Two arms are called"),
        (["a=", "b"], "nothing after ="),
    ):
        with pytest.raises(Refused, match=says):
            arms_from(texts)
    assert [mark_of(at) for at in (0, 7, 8)] == ["white", "black", "mark 9"]


def test_an_arm_s_value_is_taken_from_its_name_where_it_has_none() -> None:
    crop = field_test()
    for factor, arm, kept in (
        ("water", ArmDraft("twice", "2 × a day"), "2"),
        ("water", ArmDraft("2.5"), "2.5"),
        ("lamps", ArmDraft("bars", " Shelf 1 "), "Shelf 1"),
        ("lamps", ArmDraft("bars"), ""),
        (
            "stages",
            ArmDraft("long", "Weighted 5d, blackout 36h"),
            "weighted 5d, blackout 36h",
        ),
    ):
        assert setting_of(factor, arm, crop, "metric") == kept
    with pytest.raises(Refused, match="is not a watering"):
        setting_of("water", ArmDraft("x", "2 litres"), crop, "metric")
    with pytest.raises(
        Refused,
        match=r"Stages of field test before its last: weighted or blackout\.",
    ):
        setting_of("stages", ArmDraft("x", "light 2d"), crop, "metric")
    wet = with_setting(crop, "water", "3")
    assert [stage.water_per_day for stage in wet.stages] == [3, 0, 3]
    assert with_setting(crop, "stages", "") == with_setting(crop, "music", "loud") == crop
    assert with_setting(crop, "stages", "blackout 36h").stages[1].seconds == 36 * 3600


@pytest.mark.parametrize("name", ["-5g", "nan", "1e999", "0", "Inf"])
def test_an_arm_called_by_an_amount_that_cannot_be_is_refused(name: str) -> None:
    with pytest.raises(Refused, match="The seed per tray"):
        setting_of("density", ArmDraft(name), field_test(), "metric")
    assert setting_of("music", ArmDraft(name), field_test(), "metric") == ""
    assert setting_of("density", ArmDraft("infused"), field_test(), "metric") == ""


def test_what_has_no_field_of_a_template_goes_into_its_notes() -> None:
    crop = field_test(notes="By hand.")
    assert adopted(crop, "lamps", "bars", "").notes == "By hand.\nLamps: bars."
    assert adopted(crop, "music", "loud", "80 dB").notes == "By hand.\nMusic: loud (80 dB)."
    assert adopted(field_test(notes=""), "music", "Loud", "loud").notes == "Music: Loud."
    with pytest.raises(Refused, match="has no value of the seed density"):
        adopted(crop, "density", "thin", "")
    assert (factor_words("density"), factor_words("music")) == ("the seed density", "music")


def test_a_chart_s_cells() -> None:
    drawn = chart([Arm("a", (100.0, 100.0, 200.0)), Arm("b", (150.0,) * 5)], 11)
    assert [line.dots for line in drawn.lines] == ["●──|──────•", "     █"]
    assert [line.words for line in drawn.lines] == ["133 g ± 57.7 (3)", "150 g ± 0 (5)"]
    flat = chart([Arm("a", (100.0,))], 3)
    assert (flat.lines[0].dots, flat.foot) == ("•", "100 g")
    assert flat.lines[0].words == "100 g (1)"
    assert chart([Arm("a", ())], 11).foot == ""
