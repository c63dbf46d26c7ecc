"""What may be made of a trial: a paragraph for each strength of evidence, and what weakens it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.growing.trials.advice import advice
from logbook.growing.trials.arms import Arm
from logbook.growing.trials.confounders import Confounders, Difference
from logbook.growing.trials.criteria import Criterion, weigh_criteria
from logbook.growing.trials.facts import RED_STEMS
from logbook.growing.trials.judging import Judgement
from logbook.growing.trials.pairs import Pair

ARMS = (Arm("a", (520.0, 530.0)), Arm("b", (400.0, 410.0)), Arm("c", (450.0, 440.0)), Arm("d", ()))
OVER_B = Pair("a", "b", 120.0, 40.0, 200.0, 0.01, 30.0)
OVER_C = Pair("a", "c", 80.0, 25.0, 150.0, 0.02, 18.0)
C_OVER_B = Pair("c", "b", 40.0, 5.0, 75.0, 0.04, 10.0)
ALIKE = Confounders((), (), ())
JUDGED = Judgement("one way", ARMS, "", pairs=(OVER_B, OVER_C, C_OVER_B))
ONCE = "It was sown once: a second week would show whether it holds."


def shown(*told: Pair, pairs: tuple[Pair, ...] = JUDGED.pairs) -> Judgement:
    return replace(JUDGED, shown=True, told_apart=told, pairs=pairs)


@pytest.mark.parametrize(
    ("trays", "said"),
    [
        (None, ""),
        (1, " To settle a difference of this size, {} with about 1 tray per arm."),
        (200, " To settle a difference of this size, {} with about 200 trays per arm."),
        (201, " A difference of this size would take more trays than a room has: leave it."),
    ],
)
def test_what_would_settle_it_is_said_while_a_room_could(trays: int | None, said: str) -> None:
    lone = replace(JUDGED, design="one tray", trays_per_arm_to_settle=trays)
    assert advice(lone, ALIKE, "the lamps") == (
        "One tray per arm shows nothing yet, so it gives no reason to change what you do."
        + said.format("sow the same arms again")
    )
    none = replace(JUDGED, trays_per_arm_to_settle=trays)
    assert advice(none, ALIKE, "the lamps").endswith("or repeat it." + said.format("repeat it"))


def test_who_cut_more_is_said_with_what_it_stands_above() -> None:
    assert advice(shown(OVER_B, pairs=(OVER_B,)), ALIKE, "x", runs=2) == (
        "a cut more than b (probably by 40 g or more; 120 g, 30 %, here); that is more than "
        "chance. Between a and c nothing is shown: take whichever is less work or cheaper. "
        "It is based on 2 weeks taken together."
    )
    assert advice(shown(OVER_B, OVER_C), ALIKE, "x") == (
        f"a cut more than b and c (each probably by 25 g or more); that is more than chance. {ONCE}"
    )
    bare = replace(OVER_B, gap_percent=None)
    assert "b (probably by 40 g or more; 120 g here); that" in advice(shown(bare), ALIKE, "x")
    assert advice(shown(C_OVER_B), ALIKE, "x") == (
        "That c cut more than b is more than chance, but no arm is clearly the best. " + ONCE
    )
    assert advice(shown(), ALIKE, "x").startswith("Something differs between the arms, but which")


def differing(*names: str, together: tuple[tuple[str, ...], ...] = ()) -> Confounders:
    return Confounders((), tuple(Difference(name, {}, "") for name in names), together)


def test_what_else_differed_weakens_what_is_said() -> None:
    one, two = (("the lamps", "shelf"),), (("the lamps", "shelf", "medium"),)
    bound = advice(JUDGED, differing("shelf", together=one), "the lamps")
    assert bound.endswith(
        "But shelf changed together with the lamps every time, so this trial cannot say which of "
        "them did it: make it alike and repeat."
    )
    assert "shelf and medium changed together" in (
        more := advice(JUDGED, differing("shelf", "medium", together=two), "the lamps")
    )
    assert more.endswith("make them alike and repeat.")
    apart = differing("shelf", "lot", together=(("shelf", "lot"),))
    assert advice(JUDGED, apart, "the lamps").endswith(
        "Besides the lamps, the arms differed in shelf and lot, which may have hidden something."
    )
    assert advice(shown(OVER_B), apart, "the lamps").endswith("which could explain part of it.")
    assert "differed" not in advice(JUDGED, differing(RED_STEMS), "the lamps")


def test_red_stems_speak_of_water() -> None:
    red = Confounders((), (Difference(RED_STEMS, {"a": "none seen", "b": "1 of 2 trays"}, ""),), ())
    assert advice(JUDGED, red, "x").endswith(
        "A look saw deep red stems (a: none seen and b: 1 of 2 trays), usually a sign of too little "
        "water, so water may have hidden something."
    )
    assert advice(shown(OVER_B), red, "x").endswith(
        "so the difference may come from the watering: repeat it with all arms watered alike before you change "
        "anything."
    )


def test_the_grower_s_own_criteria_come_last() -> None:
    ahead = weigh_criteria([Criterion("yield", 1, {"a": 3, "b": 1, "c": 2})])
    assert advice(JUDGED, ALIKE, "x", ahead).endswith(
        "By what you said counts, a comes first (10 of 10 points)."
    )
    level = weigh_criteria([Criterion("yield", 1, {"a": 1, "b": 1})])
    assert advice(JUDGED, ALIKE, "x", level).endswith("By what you said counts, no arm is ahead.")
