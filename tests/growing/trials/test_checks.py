"""What is said of the spreads and of a tray that stands apart, beside a judgement."""

from __future__ import annotations

import math
from statistics import mean, variance

import pytest
from scipy.optimize import brentq
from scipy.stats import t

from logbook.growing.trials.arms import Arm
from logbook.growing.trials.judging import checks_of

EVEN = Arm("even", (300, 305, 295, 302, 298, 300))
FAIR = Arm("fair", (300, 310, 290, 304, 296, 300))
WIDE = Arm("wide", (300, 330, 270, 312, 288, 300))


def test_like_spreads_are_said_with_their_ratio() -> None:
    said = checks_of([EVEN, Arm("b", (310, 315, 305, 312, 308, 310))], "one way")
    assert said[0].startswith("The arms' spreads look alike (widest 1 times")
    # standard deviations 3.406 and 20.435 g
    said = checks_of([FAIR, WIDE, EVEN], "welch")
    assert said[0] == (
        "Each arm is taken with its own spread (widest wide, 6 times the narrowest, even)."
    )


def test_one_spread_alone_is_not_compared_and_none_at_all_claims_nothing() -> None:
    assert not any("spread" in each for each in checks_of([EVEN, Arm("b", (310,))], "one way"))
    (first, *_) = checks_of([EVEN, Arm("flat", (310, 310, 310, 310))], "welch")
    assert first.startswith("Within flat all trays weigh exactly the same")


@pytest.mark.parametrize(("odd", "said"), [(390, True), (210, True), (312, False)])
def test_a_tray_far_from_the_others_of_its_arm_is_named(odd: float, said: bool) -> None:
    arms = [Arm("b", (310, 315, 305, 312, 308)), Arm("a", (300, 305, 295, 302, odd, 298))]
    named = [each for each in checks_of(arms, "welch") if "is far" in each]
    assert bool(named) is said
    if said:
        assert named[0].startswith(f"The tray of {odd} g in a is far")


def test_with_four_degrees_of_freedom_a_tray_can_stand_apart_and_with_three_not() -> None:
    lone = Arm("c", (900,))
    five = [Arm("a", (300, 301, 300.5)), Arm("b", (300, 300.2, 380, 300.1)), lone]
    assert any("380 g in b" in each for each in checks_of(five, "welch"))
    four = [Arm("a", (300, 301)), Arm("b", (300, 300.2, 380)), lone]
    assert not any("is far" in each for each in checks_of(four, "welch"))


@pytest.mark.parametrize(("trays", "rough"), [(3, True), (4, False)])
def test_fewer_than_four_trays_in_an_arm_are_a_rough_picture(trays: int, rough: bool) -> None:
    few = Arm("few", (300.0, 304.0, 296.0, 301.0)[:trays])
    said = " ".join(checks_of([EVEN, few], "welch"))
    assert (f"With only {trays} trays in an arm" in said) is rough
    assert said.endswith("nothing else differed between arms.")


def test_a_tray_is_far_where_it_would_be_without_it_in_the_pool_one_time_in_twenty() -> None:
    """Leave it out: t of its distance to the others, pooled spread of the rest, times the trays.

    Bonferroni over the trays of arms of two or more (R. D. Cook & S. Weisberg 1982, §2.2, from
    memory).
    """
    others, rest, lone = (300, 305, 295, 302, 298), (310, 315, 305, 312, 308), (700,)

    def chance(weight: float) -> float:
        within = (len(others) - 1) * variance(others) + (len(rest) - 1) * variance(rest)
        df = len(others) + len(rest) - 2
        error = math.sqrt(within / df * (1 + 1 / len(others)))
        return float(2 * t.sf(abs(weight - mean(others)) / error, df) * 11)

    edge = brentq(lambda weight: chance(weight) - 0.05, 301, 400)
    for weight, named in ((edge - 0.1, False), (edge + 0.1, True)):
        arms = [Arm("a", (*others, weight)), Arm("b", rest), Arm("lone", lone)]
        assert any("is far" in each for each in checks_of(arms, "welch")) is named
