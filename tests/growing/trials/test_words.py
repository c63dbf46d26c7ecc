"""The sentences of a judgement, one by one: what each number of trays, arms or chance makes of them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.one_way import Anova
from logbook.growing.trials.pairs import Pair
from logbook.growing.trials.verdict import Verdict
from logbook.growing.trials.words import (
    chance_words,
    compared,
    count_word,
    difference_words,
    grams_of,
    held_back,
    left_out,
    one_tray,
    p_words,
    percent_of,
    set_aside,
    settle_words,
)

HEAVY, LIGHT, MIDDLE = Arm("a", (520.0,)), Arm("b", (400.0,)), Arm("c", (450.0,))
PAIR = Pair("a", "b", 120.0, 40.0, 200.0, 0.01, 30.0)
ANOVA = Anova(9.0, 2, 9, 0.004, 400.0)


@pytest.mark.parametrize(
    ("number", "word"),
    [(0, "no"), (1, "one"), (12, "twelve"), (13, "13"), (1234, "1,234"), (-1, "-1")],
)
def test_small_numbers_are_words(number: int, word: str) -> None:
    assert count_word(number) == word


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0009, "less than one time in a thousand"),
        (0.001, "about one time in 1,000"),
        (0.0049, "about one time in 200"),
        (0.0051, "about one time in 200"),
        (0.03, "about one time in 30"),
        (0.051, "about one time in 20"),
        (0.22, "about one time in five"),
        (0.23, "about two times in ten"),
        (0.949, "about nine times in ten"),
        (0.951, "nearly every time"),
    ],
)
def test_a_chance_in_words(chance: float, words: str) -> None:
    assert chance_words(chance) == words


@pytest.mark.parametrize(
    ("p", "words"),
    [(0.0009, "p < 0.001"), (0.001, "p 0.001"), (0.0994, "p 0.099"), (0.1, "p 0.10"), (0.5, "p 0.50")],
)  # fmt: skip
def test_p_has_three_digits_below_a_tenth(p: float, words: str) -> None:
    assert p_words(p) == words


def test_what_does_not_count_is_said_with_its_reason() -> None:
    assert left_out([HEAVY, LIGHT]) == ""
    arms = [
        Arm("a", (500.0,), died=1, missing=2),
        Arm("b", (), died=2, left_out=("torn", "torn", "weighed together")),
    ]
    assert left_out(arms) == (
        "Not counted: 1 tray of a weighed 0 g (died?) and is kept out of its mean, "
        "2 trays of a without a weight, "
        "2 trays of b weighed 0 g (died?) and are kept out of its mean, "
        "2 trays of b left out (torn), 1 tray of b left out (weighed together) "
        "and b has no tray to compare. An arm that loses trays does worse than its mean says."
    )
    assert "loses trays" not in left_out([Arm("a", (500.0,), missing=1)])


def test_arms_with_too_few_trays_are_set_aside() -> None:
    full = Arm("full", (500.0, 510.0))
    every = [full, *(Arm(f"x{number}", (500.0,)) for number in range(1, 7)), Arm("none", ())]
    assert set_aside([full, every[1]], [full]) == (
        "x1 has 1 tray: too few beside the others, so nothing is said about it."
    )
    assert set_aside(every, [full]) == (
        "x1 has 1 tray, x2 has 1 tray, x3 has 1 tray, x4 has 1 tray and 2 further arms no more: "
        "too few beside the others, so nothing is said about them."
    )
    assert set_aside([full], [full]) == ""
    assert set_aside([full, HEAVY], [full, HEAVY]).startswith("a has one tray; its own spread")
    assert set_aside([HEAVY, LIGHT], [HEAVY, LIGHT]).startswith(
        "a and b have one tray each; their own spread"
    )


def test_one_tray_per_arm_says_how_often_chance_does_that() -> None:
    said = one_tray([HEAVY, LIGHT, MIDDLE], 15, 0.05, 7)
    assert said == (
        "One tray per arm: no test can be made of this. a cut 120 g (30 %) more than b. Where "
        "trays grown alike spread by 15 %, the best and worst of three identical ones "
        "differ this much about one time in 20. So this shows no difference between the arms. If "
        "the difference is real, about 7 trays per arm would show it eight times in ten."
    )
    assert "worth repeating; one tray still proves nothing" in one_tray(
        [HEAVY, LIGHT], 15, 0.049, 7
    )
    for spread, chance in ((None, 0.5), (15, None)):
        assert "give that spread to see" in one_tray([HEAVY, LIGHT], spread, chance, None)


def test_trays_that_weigh_the_same_have_no_gap() -> None:
    alike = [Arm(name, (500.0,)) for name in "abc"]
    assert one_tray(alike, 15, 0.5, 1).endswith("All three trays weigh the same.")
    assert one_tray(alike[:2], 15, 0.5, 1).endswith("Both trays weigh the same.")


@pytest.mark.parametrize(
    ("low", "high", "reach"),
    [
        (40.0, 200.0, "40 g to 200 g"),
        (0.0, 200.0, "0 g to 200 g"),
        (120.0, 120.0, "about 120 g"),
    ],
)
def test_a_gap_is_said_with_its_reach(low: float, high: float, reach: str) -> None:
    pair = replace(PAIR, low=low, high=high)
    assert difference_words(pair) == f"a cut {reach} more than b (95 % sure), 120 g (30 %) here"
    assert difference_words(replace(PAIR, low=-40.0)) == (
        "a cut 120 g (30 %) more than b, and the true difference is probably (95 %) anywhere from "
        "40 g less to 200 g more"
    )
    assert "(30 %)" not in difference_words(replace(pair, gap_percent=None))


def test_a_difference_is_said_with_who_stands_above_whom() -> None:
    arms = [HEAVY, LIGHT, MIDDLE]
    near = Pair("a", "c", 70.0, -10.0, 150.0, 0.2, 15.0)
    some = compared(arms, [PAIR, near], [PAIR], ANOVA, None, shown=True)
    assert some.startswith("The arms differ (p 0.004): identical trays would differ this much")
    fades = "A first winner's lead usually shrinks when it is repeated."
    assert some.endswith(f"a cut most, but cannot be told apart from c. {fades}")
    every = compared(arms, [PAIR, near], [PAIR, near], ANOVA, None, shown=True)
    assert f"a cut more than every other arm. {fades}" in every
    two = compared(arms[:2], [PAIR], [PAIR], ANOVA, None, shown=True)
    assert f"(95 % sure), 120 g (30 %) here. {fades}" in two
    none = compared(arms, [PAIR, near], [], ANOVA, None, shown=True)
    assert "Yet no two of them can be told apart. The largest difference: a cut 40 g" in none
    many = compared(arms, [PAIR], [PAIR] * 6, ANOVA, None, shown=True)
    assert many.count("(95 % sure)") == 4
    assert "So do 2 further pairs." in many
    assert "further pair" not in compared(arms, [PAIR], [PAIR] * 4, ANOVA, None, shown=True)


def test_no_difference_is_not_called_equal() -> None:
    said = compared([HEAVY, LIGHT], [PAIR], [], replace(ANOVA, p=0.4), 9, shown=False)
    assert said.startswith(
        "No difference between the arms is shown. The largest difference: a cut 40 g"
    )
    assert "about four times in ten (p 0.40)" in said
    assert said.endswith(f"That does not show that they are equal. {settle_words(9)}")
    assert settle_words(None) == ""
    alike = Arm("a", (500.0, 500.0)), Arm("b", (500.0, 500.0))
    assert "All trays weigh the same" in compared(alike, [], [], None, None, shown=False)
    apart = Arm("a", (500.0, 500.0)), Arm("b", (600.0, 600.0))
    assert "varies within the arms" in compared(apart, [], [], None, None, shown=False)


def test_why_a_small_p_is_not_taken_for_a_difference() -> None:
    result = Verdict("welch", replace(ANOVA, p=0.06), 0.05, shown=False, too_hopeful=0.02)
    assert "Welch's formula alone gives p 0.020" in held_back(result)
    for other in ({"too_hopeful": None}, {"shown": True}, {"anova": None}):
        assert held_back(replace(result, **other)) == ""


@pytest.mark.parametrize(
    ("value", "grams", "percent"),
    [
        (100.4, "100 g", "100 %"),
        (99.94, "99.9 g", "100 %"),
        (10.04, "10 g", "10 %"),
        (9.99, "9.99 g", "10 %"),
        (9.84, "9.84 g", "9.8 %"),
        (1.004, "1 g", "1 %"),
        (0.8654, "0.865 g", "0.9 %"),
        (-0.0001, "0 g", "0 %"),
    ],
)
def test_numbers_have_as_many_digits_as_they_are_worth(
    value: float, grams: str, percent: str
) -> None:
    assert (grams_of(value), percent_of(value)) == (grams, percent)
